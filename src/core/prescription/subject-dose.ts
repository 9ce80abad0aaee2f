import { type Dose, NO_DOSE, unionDose } from "../crown/dose.ts";
import type { RemovalRegion } from "../model/conflict.ts";
import type { Subject } from "./cut.ts";

/** With less than this share of its outline outside buildings, the outline says nothing of the crown. */
const LEAST_OUTSIDE_SHARE = 0.01;

/**
 * Share of the live crown inside the union of the regions, by volume and by leaf.
 *
 * What the crown's outline has inside or behind buildings is not there: it counts neither as crown nor as taken, so that limbs that a
 * wall keeps short are not charged at full length. A crown all but inside is taken for what its outline says.
 */
export function subjectDose(subject: Subject, regions: readonly RemovalRegion[]): Dose {
  const { crown, radiiM, solids } = subject;
  if (regions.length === 0) return NO_DOSE;
  if (solids === undefined || solids.regions.length === 0) return unionDose(crown, regions, radiiM);
  const whole = unionDose(crown, [...solids.regions, ...regions], radiiM);
  return {
    volumeShare: outside(whole.volumeShare, solids.dose.volumeShare),
    leafShare: outside(whole.leafShare, solids.dose.leafShare),
  };
}

function outside(share: number, inBuildings: number): number {
  const left = 1 - inBuildings;
  return left < LEAST_OUTSIDE_SHARE ? share : Math.max(0, Math.min(1, (share - inBuildings) / left));
}
