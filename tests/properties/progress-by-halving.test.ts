import { expect, it } from "vitest";
import { randomStream } from "../../sample-geojson/make/random.ts";
import { roundCrown } from "../../src/core/crown/crown.ts";
import { doseShare, rayRadiiM } from "../../src/core/crown/dose.ts";
import { RAY_COUNT } from "../../src/core/model/conflict.ts";
import { HABITS } from "../../src/core/model/terms.ts";
import type { Cut, Subject } from "../../src/core/prescription/cut.ts";
import { regionOfPart } from "../../src/core/prescription/part-of-cut.ts";
import { ProgressSearch } from "../../src/core/prescription/progress-search.ts";
import { subjectDose } from "../../src/core/prescription/subject-dose.ts";

const SCENES = 300;
const STEPS = 2 ** 14;
const random = randomStream("progress");

/** Limbs toward one side, or all round, up to a height: a cut that goes by height. */
function someCut(): Cut {
  const fromM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  const isRound = random.chance(0.3);
  const bearingDeg = random.between(0, 360);
  const distanceM = random.chance(0.5) ? 0 : random.between(0, 4);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const toward = Math.cos(((ray * 3 + 1.5 - bearingDeg) * Math.PI) / 180);
    if (isRound) fromM[ray] = 0;
    else if (toward > 0.3) fromM[ray] = distanceM / toward;
  }
  const toM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  const region = { fromM, toM, lowM: random.between(-1, 6), highM: random.between(3, 12) };
  return { remedy: "lift", region, limbM: fromM } as unknown as Cut;
}

it(`finds the step that halving finds, in ${SCENES} scenes of up to four cuts, some of them begun`, () => {
  let inPart = 0;
  for (let scene = 0; scene < SCENES; scene += 1) {
    const crown = roundCrown(random.between(6, 16), random.between(0, 4), random.between(2, 6), random.pick(HABITS));
    const subject = { tree: {}, crown, radiiM: rayRadiiM(crown) } as unknown as Subject;
    const cuts = Array.from({ length: 1 + Math.floor(random.between(0, 4)) }, someCut);
    const found = cuts.map(() => (random.chance(0.3) ? random.between(0, 1) : 0));
    let asked = 0;
    const doseOf = (done: readonly number[]): number => {
      asked += 1;
      const begun = cuts.flatMap((cut, at) => (done[at]! > 0 ? [regionOfPart(subject, cut, done[at]!)] : []));
      return doseShare(subjectDose(subject, begun));
    };
    const mostShare = doseOf(found) + random.between(0, 0.4);
    const isAllowed = (dose: number) => dose <= mostShare;
    const doneAt = (progress: number) =>
      found.map((share, at) => Math.max(share, Math.min(1, Math.max(0, progress - at))));

    asked = 0;
    const quick = new ProgressSearch(subject, cuts).farthest(found, doseOf, isAllowed, mostShare);
    expect(asked).toBeLessThan(30);
    let allowed = 0;
    let refused = cuts.length;
    while (refused - allowed > cuts.length / STEPS) {
      const middle = (allowed + refused) / 2;
      if (isAllowed(doseOf(doneAt(middle)))) allowed = middle;
      else refused = middle;
    }
    expect(quick).toEqual(isAllowed(doseOf(doneAt(cuts.length))) ? doneAt(cuts.length) : doneAt(allowed));
    if (quick.some((share) => share > 0 && share < 1)) inPart += 1;
  }
  // Scenes in which all is allowed, or nothing, would prove little.
  expect(inPart).toBeGreaterThan(SCENES / 3);
});
