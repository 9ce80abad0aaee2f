import { compassPoint } from "../../units/compass.ts";
import { type DisplayUnits, formatLength, formatShare } from "../../units/format-length.ts";
import { reachesOver } from "../reaches-over.ts";
import { loadCaseWords } from "../wire/load-case-words.ts";
import { isHeadroomMeasured } from "./as-measured.ts";
import { sizeText } from "./dimensions.ts";
import { isShownAtCase } from "./layout.ts";
import {
  footAlongM,
  kindName,
  remedyShown,
  type SectionSubject,
  servingTask,
  targetDistanceM,
  targetHeightM,
  thingOf,
} from "./subject.ts";

const CUTS = {
  lift: "Lifting the crown all round",
  shorten: "Shortening branch tips",
  "remove-limb": "Removing low limbs",
};

/** A section in plain sentences, for people who do not see it. */
export function describeSection(subject: SectionSubject, units: DisplayUnits): string {
  const { tree, conflict } = subject;
  const say = (lengthM: number) => formatLength(lengthM, units);
  const name = tree.commonName ?? tree.species ?? "tree";
  const sentences = [
    `Side view at true scale of ${name} ${tree.id}: height ${sizeText(tree.height, units)}, crown base ` +
      `${sizeText(tree.crownBase, units)}, crown radius ${sizeText(tree.radius, units)}.`,
  ];
  const asideM = Math.hypot(tree.crownEastM ?? 0, tree.crownNorthM ?? 0);
  if (asideM > 0) {
    const side = compassPoint((Math.atan2(tree.crownEastM ?? 0, tree.crownNorthM ?? 0) * 180) / Math.PI);
    sentences.push(`The crown stands ${say(asideM)} ${side} of the trunk.`);
  }
  if (conflict === null) return `${sentences.join(" ")} No conflict is shown.`;
  const thing = thingOf(conflict.kind);
  const where =
    conflict.withName === null ? kindName(conflict.kind) : `${kindName(conflict.kind)} ${conflict.withName}`;
  sentences.push(
    `To the ${compassPoint(conflict.bearingDeg)}, ${say(conflict.distanceM - footAlongM(subject))} from the trunk: ${where}.`,
  );
  if (thing === "wall" || thing === "conductor") {
    const now = conflict.measuredM <= 0 ? "touch it" : `are ${say(conflict.measuredM)} away`;
    sentences.push(
      `Branches ${now}; ${say(conflict.minimumM)} is needed, and the work clears to ${say(targetDistanceM(subject, conflict))}.`,
    );
    if (conflict.loadCase !== null) {
      const nearest = loadCaseWords(conflict.loadCase, units);
      sentences.push(
        isShownAtCase(conflict)
          ? `The wire is drawn where it comes nearest, ${nearest}.`
          : `The wire is drawn at rest; it comes nearest ${nearest}.`,
      );
    }
  } else {
    const targetM = targetHeightM(subject, conflict) - conflict.datumM;
    const now = !reachesOver(subject.tree, conflict)
      ? "do not reach over it yet"
      : conflict.measuredM < 0
        ? "touch its edge"
        : `hang ${say(conflict.measuredM)} above it`;
    const droopM = conflict.droopAllowanceM ?? 0;
    const droop = droopM > 0 ? `, for branches hang up to ${say(droopM)} lower in leaf, rain or ice` : "";
    sentences.push(
      `Branches ${now}; ${say(conflict.minimumM)} is needed, and the work clears to ${say(targetM)}${servingTask(subject) === null ? "" : droop}.`,
    );
    if (isHeadroomMeasured(subject)) sentences.push("The crown is drawn as it was measured over the road.");
  }
  const task = servingTask(subject);
  const remedy = remedyShown(subject);
  if (task !== null && remedy !== null) {
    sentences.push(`${CUTS[remedy]} takes about ${formatShare(task.doseShare)} of the live crown (hatched).`);
  } else if (subject.prescription.refer !== null) {
    sentences.push("Nothing is cut: the tree is referred to a licensed arborist.");
  }
  return sentences.join(" ");
}
