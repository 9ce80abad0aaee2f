import type { ConflictRecord } from "../../model/conflict.ts";
import { type DisplayUnits, formatLength, formatShare } from "../../units/format-length.ts";
import { crownOf, lowerSurfaceM, radiusAtHeightM } from "../crown.ts";
import type { Shape } from "../drawing.ts";
import { widestAt } from "../profile.ts";
import { reachesOver } from "../reaches-over.ts";
import { loadCaseWords } from "../wire/load-case-words.ts";
import { middleOfRemoval } from "./crown-shapes.ts";
import { conductorHeightM, isShownAtCase, type SectionLayout } from "./layout.ts";
import { area, circle, line, THIN } from "./path.ts";
import { removalOf } from "./removal.ts";
import { spreadLabels } from "./spread-labels.ts";
import { type SectionSubject, servingTask, targetDistanceM, targetHeightM, thingOf } from "./subject.ts";

/** A label in the right-hand column and the place it speaks of, found once the scale is known. */
export interface Callout {
  readonly text: string;
  readonly bold: boolean;
  readonly place: (layout: SectionLayout) => readonly [xM: number, heightM: number] | null;
}

/** What the section says about the conflict: what is there, what is needed, where the work goes to, and what comes off. */
export function calloutsOf(subject: SectionSubject, units: DisplayUnits): Callout[] {
  const { conflict } = subject;
  if (conflict === null) return [];
  const callouts: Callout[] = [...clearanceCallouts(subject, conflict, units)];
  const task = servingTask(subject);
  const removal = removalOf(subject);
  if (task !== null && removal !== null) {
    callouts.push({
      text: `${formatShare(task.doseShare)} comes off`,
      bold: true,
      place: (layout) => middleOfRemoval(subject, layout, removal),
    });
  }
  return callouts;
}

/** The callouts' texts and leaders, moved apart until none touches. */
export function calloutShapes(callouts: readonly Callout[], layout: SectionLayout): Shape[] {
  const shown = callouts.flatMap(({ text, bold, place }) => {
    const at = place(layout);
    return at === null ? [] : [{ text, bold, xMm: layout.toX(at[0]), yMm: layout.toY(at[1]) }];
  });
  const baselines = spreadLabels(
    shown.map(({ yMm }) => yMm),
    layout.textMm * 1.25,
    layout.topMm + layout.textMm * 0.5,
    layout.groundMm - layout.textMm * 0.2,
  );
  return shown.flatMap(({ text, bold, xMm, yMm }, at) => {
    const labelMm = baselines[at]!;
    return [
      line(
        [
          [xMm, yMm],
          [Math.max(xMm, layout.columnMm - 3.4), yMm],
          [layout.columnMm - 0.7, labelMm],
        ],
        THIN,
      ),
      area(circle(xMm, yMm, 0.35), "ink"),
      {
        type: "text",
        xMm: layout.columnMm,
        yMm: labelMm + layout.textMm * 0.33,
        text,
        sizeMm: layout.textMm,
        anchor: "start",
        tone: "ink",
        ...(bold ? { bold } : {}),
      } as const,
    ];
  });
}

/** How the wire is drawn: at the temperature of the load case in which it comes nearest, else at rest. */
function wireCallouts(conflict: ConflictRecord, units: DisplayUnits, heightM: number): Callout[] {
  const { loadCase } = conflict;
  if (loadCase === null) return [];
  const text = isShownAtCase(conflict) ? loadCaseWords(loadCase, units).replace("at rest", "wire") : "wire at rest";
  return [{ text, bold: false, place: ({ nearM }) => [nearM, heightM] }];
}

function clearanceCallouts(subject: SectionSubject, conflict: ConflictRecord, units: DisplayUnits): Callout[] {
  const { datumM, minimumM, clearToM, measuredM } = conflict;
  const say = (lengthM: number) => formatLength(lengthM, units);
  const thing = thingOf(conflict.kind);
  if (thing === "wall") {
    const topM = Math.min(subject.heightOfThingM ?? subject.tree.height.valueM, subject.tree.height.valueM);
    const gapText = measuredM <= 0 ? "touches the wall" : `gap now ${say(measuredM)}`;
    const aimM = targetDistanceM(subject, conflict);
    return [
      { text: gapText, bold: true, place: () => gapPlaceM(subject, conflict, topM) },
      { text: `needs ${say(minimumM)}`, bold: false, place: ({ nearM }) => [nearM - minimumM / 2, topM * 0.3] },
      {
        text: aimText(aimM, clearToM, say),
        bold: false,
        place: ({ nearM }) => [Math.max(0, nearM - aimM), topM * 0.12],
      },
    ];
  }
  if (thing === "conductor") {
    const heightM = conductorHeightM(subject);
    if (heightM === null) {
      const middleM = subject.tree.height.valueM / 2;
      return [
        { text: "height not known", bold: true, place: ({ nearM }) => [nearM, middleM] },
        { text: `clear to ${say(clearToM)}`, bold: false, place: ({ nearM }) => [nearM, middleM * 0.8] },
      ];
    }
    const gap = measuredM <= 0 ? "touches the crown" : `gap now ${say(measuredM)}`;
    return [
      ...wireCallouts(conflict, units, heightM),
      { text: gap, bold: true, place: ({ nearM }) => [nearM, heightM] },
      { text: `minimum ${say(minimumM)}`, bold: false, place: ({ nearM }) => [nearM, heightM - minimumM] },
      {
        text: aimText(targetDistanceM(subject, conflict), clearToM, say),
        bold: false,
        place: ({ nearM }) => [nearM, heightM - clearToM],
      },
    ];
  }
  const targetM = targetHeightM(subject, conflict) - datumM;
  return [
    { text: aimText(targetM, clearToM, say), bold: false, place: ({ farM }) => [farM, datumM + targetM] },
    { text: `needs ${say(minimumM)}`, bold: false, place: ({ farM }) => [farM, datumM + minimumM] },
    nowCallout(subject, conflict, say),
  ];
}

/** What the work clears to, where that is not the rule's clear-to. */
const aimText = (aimM: number, clearToM: number, say: (lengthM: number) => string): string =>
  Math.abs(aimM - clearToM) > 0.05 ? `cut to ${say(aimM)}` : `clear to ${say(clearToM)}`;

/** How the branches hang over a way or roof today; a crown that is not over it yet is said to be so, for it has no headroom. */
function nowCallout(subject: SectionSubject, conflict: ConflictRecord, say: (lengthM: number) => string): Callout {
  const { datumM, measuredM } = conflict;
  const crown = crownOf(subject.tree);
  if (!reachesOver(subject.tree, conflict)) {
    const widestM = crown.crownBaseM + widestAt(crown.habit) * (crown.heightM - crown.crownBaseM);
    return { text: "not over it yet", bold: true, place: ({ towardRadiusM }) => [towardRadiusM, widestM] };
  }
  return {
    text: measuredM < 0 ? "touches the roof's edge" : `now ${say(measuredM)}`,
    bold: true,
    place: (layout) => [lowestPlaceM(subject, layout), datumM + measuredM],
  };
}

/** Distance from the axis at which the crown hangs lowest over the thing. */
function lowestPlaceM(subject: SectionSubject, layout: SectionLayout): number {
  const { conflict, tree } = subject;
  const nearM = Math.max(0.05, layout.nearM);
  if (conflict === null || nearM > layout.towardRadiusM) return nearM;
  const lowM = lowerSurfaceM(crownOf(tree), nearM, conflict.bearingDeg);
  const endM = Math.min(layout.towardRadiusM, layout.farM);
  const farLowM = lowerSurfaceM(crownOf(tree), endM, conflict.bearingDeg);
  return farLowM < lowM ? endM : nearM;
}

/** The point of the crown's edge that comes nearest to a wall of this height. */
function gapPlaceM(subject: SectionSubject, conflict: ConflictRecord, topM: number): readonly [number, number] {
  const crown = crownOf(subject.tree);
  const depthM = crown.heightM - crown.crownBaseM;
  const widestM = crown.crownBaseM + widestAt(crown.habit) * depthM;
  const heightM = Math.max(crown.crownBaseM, Math.min(widestM, topM));
  return [radiusAtHeightM(crown, heightM, conflict.bearingDeg), heightM];
}
