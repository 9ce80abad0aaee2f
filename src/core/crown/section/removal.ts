import type { ConflictRecord } from "../../model/conflict.ts";
import { radiusTowardM } from "../crown.ts";
import type { RemovalAt } from "./crown-shapes.ts";
import { conductorHeightM } from "./layout.ts";
import { remedyShown, type SectionSubject, servingTask, targetDistanceM, targetHeightM, thingOf } from "./subject.ts";

/** Of a limb that would keep less than this share of its length nothing stays; as in the prescription. */
const LEAST_LEFT_SHARE = 1 / 3;

/** What the prescription takes from the crown in this section; null when nothing is cut for the conflict shown. */
export function removalOf(subject: SectionSubject): RemovalAt | null {
  const { conflict } = subject;
  const remedy = remedyShown(subject);
  if (conflict === null || remedy === null) return null;
  const [lowM, highM] = heightsCut(subject, conflict);
  if (remedy === "lift") return (heightM) => (heightM < highM ? EVERYWHERE : null);
  // With the trunk in the way or triangle itself, what is cut lies on both sides of it.
  const isInside = conflict.distanceM <= 0 && thingOf(conflict.kind) !== "conductor";
  const fromM = remedy === "remove-limb" ? 0 : edgeM(subject, conflict);
  const span = isInside ? EVERYWHERE : ([fromM, Number.POSITIVE_INFINITY] as const);
  return (heightM) => (heightM >= lowM && heightM < highM ? span : null);
}

const EVERYWHERE = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;

/** Heights between which branches come off. Over a line up to the sky; a hedge in a sight triangle is held below the window. */
function heightsCut(subject: SectionSubject, conflict: ConflictRecord): readonly [lowM: number, highM: number] {
  const belowM = servingTask(subject)?.belowM ?? Number.POSITIVE_INFINITY;
  switch (thingOf(conflict.kind)) {
    case "wall":
      return [Number.NEGATIVE_INFINITY, subject.heightOfThingM ?? belowM];
    case "conductor":
      return [(conductorHeightM(subject) ?? 0) - conflict.clearToM, Number.POSITIVE_INFINITY];
    case "sight":
      return isWoody(subject)
        ? [subject.windowLowM ?? 0, targetHeightM(subject, conflict)]
        : [subject.windowLowM ?? 0, Number.POSITIVE_INFINITY];
    default:
      return [Number.NEGATIVE_INFINITY, targetHeightM(subject, conflict)];
  }
}

/** Distance in meters from the trunk at which tips are cut: the thing's edge, or so far before a wall or line as the work clears. */
function edgeM(subject: SectionSubject, conflict: ConflictRecord): number {
  const thing = thingOf(conflict.kind);
  const nearM = Math.max(0, conflict.distanceM);
  if (thing === "wall" || thing === "conductor") return Math.max(0, nearM - targetDistanceM(subject, conflict));
  const reachM = radiusTowardM(subject.tree.radii, conflict.bearingDeg);
  return isWoody(subject) && nearM < reachM * LEAST_LEFT_SHARE ? 0 : nearM;
}

const isWoody = ({ tree }: SectionSubject): boolean => tree.form !== "shrub" && tree.form !== "hedge";
