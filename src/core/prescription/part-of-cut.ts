import { RAY_COUNT, type RemovalRegion } from "../model/conflict.ts";
import type { Standard } from "../standard/standard.ts";
import { lossMPerYear } from "./clearance-target.ts";
import type { Cut, Subject } from "./cut.ts";
import { isHeadroom } from "./kinds.ts";

/**
 * The first part of a cut: the lowest limbs where it is counted in height, the tips where it is counted in distance. Leaders that come down are
 * never divided: halfway there need be no laterals to take over.
 */
export function partOf(subject: Subject, cut: Cut, share: number): Cut {
  if (share >= 1) return cut;
  const region = regionOfPart(subject, cut, share);
  if (isByHeight(cut)) {
    const partM = region.highM;
    const { highM } = heightSpan(subject, cut);
    return {
      ...cut,
      region,
      belowM: partM,
      targetM: isHeadroom(cut.conflict.kind) ? cut.targetM - (highM - partM) : cut.targetM,
    };
  }
  return {
    ...cut,
    region,
    targetM: Math.max(0, cut.targetM - (1 - share) * cut.shortenM),
    shortenM: cut.shortenM * share,
    shortenShare: cut.shortenShare * share,
  };
}

/** What {@link partOf} a cut takes off. */
export function regionOfPart(subject: Subject, cut: Cut, share: number): RemovalRegion {
  const { region, limbM } = cut;
  if (share >= 1) return region;
  if (isByHeight(cut)) {
    const { lowM, highM } = heightSpan(subject, cut);
    return { fromM: region.fromM, toM: region.toM, lowM: region.lowM, highM: lowM + (highM - lowM) * share };
  }
  const fromM = new Float64Array(RAY_COUNT);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const edgeM = region.fromM[ray]!;
    fromM[ray] = edgeM < Number.POSITIVE_INFINITY ? edgeM + (1 - share) * Math.max(0, limbM[ray]! - edgeM) : edgeM;
  }
  return { fromM, toM: region.toM, lowM: region.lowM, highM: region.highM };
}

/** Share of a cut that grows back and sinks back in a year, by its kind: 0 where there is nothing of it, more than 1 of a small one. */
export function shareLostPerYear(subject: Subject, cut: Cut, standard: Standard): number {
  const { lowM, highM } = heightSpan(subject, cut);
  const spanM = isByHeight(cut) ? highM - lowM : cut.shortenM;
  return spanM > 0 ? lossMPerYear(cut.conflict, cut.remedy, standard) / spanM : 0;
}

/** Whether a part of a cut is its lowest limbs; else it is their tips. */
export const isByHeight = (cut: Cut): boolean => cut.remedy !== "shorten" || isHeadroom(cut.conflict.kind);

/** Between which heights in meters a cut takes something of the crown. */
export function heightSpan(subject: Subject, cut: Cut): { lowM: number; highM: number } {
  const highM = Math.min(cut.region.highM, subject.crown.heightM);
  return { lowM: Math.min(highM, Math.max(subject.crown.crownBaseM, cut.region.lowM)), highM };
}
