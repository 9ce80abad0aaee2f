import type { ConflictRecord } from "../../model/conflict.ts";
import { radiusTowardM } from "../crown.ts";
import type { RemovalAt } from "./crown-shapes.ts";
import { conductorHeightM } from "./layout.ts";
import { remedyShown, type SectionSubject, servingTask, targetHeightM, thingOf } from "./subject.ts";

/** Of a limb that would keep less than this share of its length nothing stays; as in the prescription. */
const LEAST_LEFT_SHARE = 1 / 3;

/** What the prescription takes from the crown in this section; null when nothing is cut for the conflict shown. */
export function removalOf(subject: SectionSubject): RemovalAt | null {
  const { conflict } = subject;
  const remedy = remedyShown(subject);
  if (conflict === null || remedy === null) return null;
  const targetM = targetHeightM(subject, conflict);
  const thing = thingOf(conflict.kind);
  switch (remedy) {
    case "lift":
      return (heightM) => (heightM < targetM ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] : null);
    case "remove-limb": {
      const topM = thing === "wall" ? wallTopM(subject, conflict) : targetM;
      return (heightM) => (heightM < topM ? [0, Number.POSITIVE_INFINITY] : null);
    }
    case "shorten":
      return shortenedTips(subject, conflict, targetM);
  }
}

function shortenedTips(subject: SectionSubject, conflict: ConflictRecord, targetM: number): RemovalAt {
  const { radii } = subject.tree;
  const fromM = Math.max(0, conflict.distanceM);
  switch (thingOf(conflict.kind)) {
    case "wall": {
      const planeM = Math.max(0, fromM - conflict.clearToM);
      const topM = wallTopM(subject, conflict);
      return (heightM) => (heightM < topM ? [planeM, Number.POSITIVE_INFINITY] : null);
    }
    case "conductor": {
      const atM = conductorHeightM(subject) ?? subject.tree.height.valueM;
      return (heightM) => {
        const halfM = Math.sqrt(conflict.clearToM ** 2 - (heightM - atM) ** 2);
        return Number.isNaN(halfM) ? null : [Math.max(0, fromM - halfM), Number.POSITIVE_INFINITY];
      };
    }
    default: {
      const reachM = radiusTowardM(radii, conflict.bearingDeg);
      const isWoody = subject.tree.form !== "shrub" && subject.tree.form !== "hedge";
      const cutM = isWoody && fromM < reachM * LEAST_LEFT_SHARE ? 0 : fromM;
      return (heightM) => (heightM < targetM ? [cutM, Number.POSITIVE_INFINITY] : null);
    }
  }
}

/** Height up to which a wall must be kept free; the whole crown where the building's height is not known. */
const wallTopM = (subject: SectionSubject, conflict: ConflictRecord): number =>
  subject.heightOfThingM === undefined
    ? (servingTask(subject)?.belowM ?? Number.POSITIVE_INFINITY)
    : subject.heightOfThingM + conflict.datumM;
