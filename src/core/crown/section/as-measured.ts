import { baseForHeadroomM } from "../base-for-headroom.ts";
import { radiusTowardM } from "../crown.ts";
import { isFieldHeadroom } from "../field-headroom.ts";
import type { SectionSubject } from "./subject.ts";

/**
 * The subject with its crown base moved so that the crown hangs over the road as it was measured in the field, which outranks the model. The
 * subject itself where the road shown is not the one that was measured, or the model does not reach over it.
 */
export function asMeasured(subject: SectionSubject): SectionSubject {
  const { tree, conflict } = subject;
  if (!isHeadroomMeasured(subject) || conflict === null) return subject;
  const radiusM = radiusTowardM(tree.radii, conflict.bearingDeg);
  const share = radiusM > 0 ? conflict.distanceM / radiusM : 1;
  const baseM = baseForHeadroomM(tree.habit, tree.height.valueM, share, conflict.measuredM);
  if (baseM === null) return subject;
  const crownBase = { ...tree.crownBase, valueM: baseM, basis: "estimated", source: "headroom over the road" } as const;
  return { ...subject, tree: { ...tree, crownBase } };
}

/** Whether what is shown over the road was measured in the field. */
export const isHeadroomMeasured = ({ tree, conflict }: SectionSubject): boolean =>
  conflict !== null && isFieldHeadroom(tree, conflict);
