import { expect, it } from "vitest";
import { randomStream } from "../../sample-geojson/make/random.ts";
import type { Crown } from "../../src/core/crown/crown.ts";
import { rayRadiiM, unionDose } from "../../src/core/crown/dose.ts";
import { RAY_COUNT, RAY_STEP_DEG, type RemovalRegion } from "../../src/core/model/conflict.ts";
import { HABITS } from "../../src/core/model/terms.ts";
import { doseRayByRay } from "./dose-ray-by-ray.ts";

const SCENES = 600;
const ENDLESS = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
const random = randomStream("doses");

/** Half-planes, ragged edges that cross rays steeply, and sectors taken to the trunk, over any heights. */
function someRegion(kind: number): RemovalRegion {
  const fromM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  const toM = new Float64Array(RAY_COUNT);
  const distanceM = random.between(-1, 6);
  const bearingDeg = random.between(0, 360);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const toward = Math.cos((((ray + 0.5) * RAY_STEP_DEG - bearingDeg) * Math.PI) / 180);
    if (kind === 0 && toward > 0) {
      fromM[ray] = Math.max(0, distanceM) / toward;
      toM[ray] = random.chance(0.5) ? Number.POSITIVE_INFINITY : fromM[ray]! + random.between(0, 3);
    } else if (kind === 1 && random.chance(0.5)) {
      fromM[ray] = random.between(-1, 8);
      toM[ray] = random.chance(0.3) ? Number.POSITIVE_INFINITY : random.between(0, 9);
    } else if (kind === 2 && toward > 0.7) {
      fromM[ray] = 0;
      toM[ray] = Number.POSITIVE_INFINITY;
    }
  }
  const lowM = random.chance(0.3) ? Number.NEGATIVE_INFINITY : random.between(0, 20);
  return { fromM, toM, lowM, highM: random.chance(0.3) ? Number.POSITIVE_INFINITY : random.between(0, 25) };
}

function someCrown(): Crown {
  const heightM = random.between(2, 25);
  const radiusM = (): number => (random.chance(0.05) ? 0 : random.between(0.5, 8));
  const roundM = random.chance(0.5) ? radiusM() : null;
  const [northM, eastM, southM, westM] = [0, 1, 2, 3].map(() => roundM ?? radiusM()) as [
    number,
    number,
    number,
    number,
  ];
  return {
    heightM,
    crownBaseM: random.between(0, heightM * 0.6),
    radii: { northM, eastM, southM, westM },
    habit: random.pick(HABITS),
  };
}

it(`gives the same bits as the slow way in ${SCENES} scenes of up to seven regions`, () => {
  let counted = 0;
  for (let scene = 0; scene < SCENES; scene += 1) {
    const crown = someCrown();
    const regions = Array.from({ length: Math.floor(random.between(0, 8)) }, () => someRegion(scene % 3));
    const fast = unionDose(crown, regions);
    const slow = doseRayByRay(crown, regions);
    expect(Object.is(fast.volumeShare, slow.volumeShare) && Object.is(fast.leafShare, slow.leafShare)).toBe(true);
    if (slow.leafShare > 0 && slow.leafShare < 1) counted += 1;
  }
  // Scenes where nothing or all is taken would prove little.
  expect(counted).toBeGreaterThan(SCENES / 2);
});

it("gives the same bits where regions come again at other heights, as parts of a cut do, and more of them than are remembered", () => {
  for (let scene = 0; scene < SCENES / 10; scene += 1) {
    const crown = someCrown();
    const radiiM = rayRadiiM(crown);
    const shapes = Array.from({ length: 40 }, () => ({ ...someRegion(scene % 3), toM: ENDLESS }));
    for (let call = 0; call < 20; call += 1) {
      const regions = Array.from({ length: call === 0 ? shapes.length : 1 + (call % 4) }, (_, at) => ({
        ...(call === 0 ? shapes[at]! : random.pick(shapes)),
        lowM: random.chance(0.3) ? Number.NEGATIVE_INFINITY : random.between(0, 20),
        highM: random.between(0, 25),
      }));
      expect(unionDose(crown, regions, radiiM)).toEqual(doseRayByRay(crown, regions, radiiM));
    }
  }
});
