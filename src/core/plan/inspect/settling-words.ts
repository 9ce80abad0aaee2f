import type { ConflictRecord } from "../../model/conflict.ts";
import { compassPoint } from "../../units/compass.ts";
import { type DisplayUnits, formatLength } from "../../units/format-length.ts";
import { METERS_PER_INCH } from "../../units/length.ts";
import type { OpenQuestion } from "./inspect-stop.ts";
import type { Settling, SettlingFigure } from "./settling.ts";

const FIGURE_WORDS: Readonly<Record<SettlingFigure, string>> = {
  "crown-base": "crown base",
  "crown-radius": "mean crown radius",
  height: "tree height",
  headroom: "free height over the road",
};

const GAPS: readonly ConflictRecord["kind"][] = ["building-side", "conductor"];

/** What a conflict is with, in words. */
export const thingText = ({ kind, withName }: Pick<ConflictRecord, "kind" | "withName">): string =>
  `${kind.replaceAll("-", " ")}${withName === null ? "" : ` ${withName}`}`;

/** Where to look, what is known and what is needed, in one sentence. */
export function questionText({ conflict }: OpenQuestion, units: DisplayUnits): string {
  const { bearingDeg, distanceM, measuredM, minimumM } = conflict;
  const what = GAPS.includes(conflict.kind) ? "free distance" : "free height under the branches";
  const where = `${compassPoint(bearingDeg)} (${Math.round(bearingDeg)}°), ${formatLength(distanceM, units)} from the trunk`;
  return `${capitalized(thingText(conflict))}, ${where}: ${what} about ${formatLength(measuredM, units)}, ${formatLength(minimumM, units)} needed.`;
}

/** Which measured value settles it which way; a sentence a figure. Rounded to the settled side. */
export function settlingText({ settlings, conflict }: OpenQuestion, units: DisplayUnits): string[] {
  if (settlings.length === 0) {
    return [`No size of the tree settles it: ${conflict.doubt ?? "look at what stands beside it."}`];
  }
  return settlings.map((one) => sentence(one, units));
}

function sentence({ figure, goneFor, goneAtM, holdsAtM }: Settling, units: DisplayUnits): string {
  const isLarge = goneFor === "large";
  const parts: string[] = [];
  if (goneAtM !== null) {
    parts.push(`${rounded(goneAtM, isLarge, units)} or ${isLarge ? "more" : "less"}: no conflict`);
  }
  if (holdsAtM !== null) {
    parts.push(`${rounded(holdsAtM, !isLarge, units)} or ${isLarge ? "less" : "more"}: sure enough to send a crew`);
  }
  return `${capitalized(FIGURE_WORDS[figure])} ${parts.join("; ")}.`;
}

/** A length rounded up or down to the inch or to 0.1 m, so that what is read is on the settled side. */
function rounded(valueM: number, isUp: boolean, units: DisplayUnits): string {
  const stepM = units === "us" ? METERS_PER_INCH : 0.1;
  const steps = valueM / stepM;
  return formatLength((isUp ? Math.ceil(steps) : Math.max(0, Math.floor(steps))) * stepM, units);
}

export const capitalized = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
