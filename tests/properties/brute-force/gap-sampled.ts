import { heightsBetween, outlineAt, type Solid, shareAt, widthAt } from "./solid.ts";
import { type WireNumbers, wirePoint } from "./swept-points.ts";

const LEVELS = 24;
const TURNS = 48;
/** Rounds of grids of 5 by 5 about the nearest sample of the crown, each half as wide as the one before. */
const ROUNDS = 10;
const ALONG_M = 0.5;
const ANGLES = 6;
/** Samples of the wire from which the search goes on, the nearest first. */
const STARTS = 4;
/** Steps along and across the wire are halved until they are this small a part of the first ones. */
const FINEST = 2 ** -9;

/**
 * The least distance found between samples of a swept wire and of a crown about `axis`, 0 where a sample of the wire is in the crown: never
 * less than the truth. First a grid over the wire's places, then finer and finer steps from the best of it.
 */
export function gapSampled(
  solid: Solid,
  axis: readonly [number, number],
  wire: WireNumbers,
  sampler: (solid: Solid) => (x: number, y: number, z: number) => number = crownSampler,
): number {
  const spanM = Math.hypot(wire[3]! - wire[0]!, wire[4]! - wire[1]!);
  const swing = wire[8]!;
  const alongs = Math.ceil(spanM / ALONG_M);
  const angles = swing > 0 ? heightsBetween(-swing, swing, ANGLES) : [0];
  const toCrown = sampler(solid);
  const gapAt = (share: number, angle: number): number => {
    const [x, y, z] = wirePoint(wire, share, angle);
    return toCrown(x - axis[0], y - axis[1], z);
  };
  const best: { readonly share: number; readonly angle: number; readonly gapM: number }[] = [];
  const reach = Math.max(...solid.radii);
  let leastM = Number.POSITIVE_INFINITY;
  for (let along = 0; along <= alongs; along += 1) {
    const share = along / alongs;
    for (const angle of angles) {
      const [x, y, z] = wirePoint(wire, share, angle);
      // No nearer than to the upright cylinder about the crown: what is farther than the best by a step cannot win.
      const asideM = Math.max(0, Math.hypot(x - axis[0], y - axis[1]) - reach);
      const overM = Math.max(0, solid.baseM - z, z - solid.heightM);
      if (Math.hypot(asideM, overM) > leastM + ALONG_M) continue;
      const gapM = gapAt(share, angle);
      best.push({ share, angle, gapM });
      leastM = Math.min(leastM, gapM);
    }
  }
  best.sort((one, other) => one.gapM - other.gapM);
  const acrossStep = swing > 0 ? (2 * swing) / ANGLES : 0;
  for (const start of best.slice(0, STARTS)) {
    if (leastM === 0) break;
    leastM = Math.min(leastM, finer(start, 1 / alongs, acrossStep, swing, gapAt));
  }
  return leastM;
}

/** Goes to the nearest of the eight places around as long as one is nearer, then halves the steps. */
function finer(
  start: { readonly share: number; readonly angle: number; readonly gapM: number },
  alongStep: number,
  acrossStep: number,
  swing: number,
  gapAt: (share: number, angle: number) => number,
): number {
  let { share, angle, gapM } = start;
  for (let scale = 0.5; scale > FINEST; ) {
    const [fromShare, fromAngle] = [share, angle];
    let isNearer = false;
    for (let i = -1; i <= 1; i += 1) {
      for (let j = acrossStep > 0 ? -1 : 0; j <= (acrossStep > 0 ? 1 : 0); j += 1) {
        const nextShare = Math.min(1, Math.max(0, fromShare + i * scale * alongStep));
        const nextAngle = Math.min(swing, Math.max(-swing, fromAngle + j * scale * acrossStep));
        const nextM = gapAt(nextShare, nextAngle);
        if (nextM >= gapM) continue;
        [share, angle, gapM] = [nextShare, nextAngle, nextM];
        isNearer = true;
      }
    }
    if (gapM === 0) break;
    if (!isNearer) scale /= 2;
  }
  return gapM;
}

/** The least distance found from a point to samples of the crown, 0 inside: sections at 25 heights with 48 points each, then closer ones. */
function crownSampler(solid: Solid): (x: number, y: number, z: number) => number {
  const levels = heightsBetween(solid.baseM, solid.heightM, LEVELS);
  const widths = levels.map((level) => widthAt(solid, level));
  const outline = Array.from({ length: TURNS }, (_, turn) => outlineAt(solid, (turn * 2 * Math.PI) / TURNS));
  return (x, y, z) => {
    const share = shareAt(solid, x, y);
    if (share <= widthAt(solid, z)) return 0;
    let least = Number.POSITIVE_INFINITY;
    let atLevel = 0;
    let atTurn = 0;
    for (let level = 0; level <= LEVELS; level += 1) {
      const width = widths[level]!;
      const up = (z - levels[level]!) ** 2;
      // Straight up or down where the point is over or under the section.
      if (share <= width) {
        if (up < least) [least, atLevel] = [up, level];
        continue;
      }
      for (let turn = 0; turn < TURNS; turn += 1) {
        const [east, north] = outline[turn]!;
        const squared = (x - east * width) ** 2 + (y - north * width) ** 2 + up;
        if (squared < least) [least, atLevel, atTurn] = [squared, level, turn];
      }
    }
    let level = levels[atLevel]!;
    // A tip has no turn of its own, and neither has what lies straight up or down: the search goes on toward the point.
    const [north, east, south, west] = solid.radii;
    let turn =
      widths[atLevel]! < 0.001 || share <= widths[atLevel]!
        ? Math.atan2(x / (x >= 0 ? east : west), y / (y >= 0 ? north : south))
        : (atTurn * 2 * Math.PI) / TURNS;
    let [levelStep, turnStep] = [(solid.heightM - solid.baseM) / LEVELS / 2, Math.PI / TURNS];
    for (let round = 0; round < ROUNDS; round += 1) {
      const [fromLevel, fromTurn] = [level, turn];
      for (let i = -2; i <= 2; i += 1) {
        const nextLevel = Math.min(solid.heightM, Math.max(solid.baseM, fromLevel + i * levelStep));
        const width = widthAt(solid, nextLevel);
        const up = (z - nextLevel) ** 2;
        if (share <= width) {
          if (up < least) [least, level] = [up, nextLevel];
          continue;
        }
        for (let j = -2; j <= 2; j += 1) {
          const [east, north] = outlineAt(solid, fromTurn + j * turnStep);
          const squared = (x - east * width) ** 2 + (y - north * width) ** 2 + up;
          if (squared < least) [least, level, turn] = [squared, nextLevel, fromTurn + j * turnStep];
        }
      }
      levelStep /= 2;
      turnStep /= 2;
    }
    return Math.sqrt(least);
  };
}

/** Turns of the circle in which a section's outline is looked at, and rounds of halving about the nearest. */
const CLOSE_TURNS = 90;
const CLOSE_ROUNDS = 14;

/**
 * As the sampler above, slower and sure not to stand still: at every height it looks all round the section, then closer, and of the heights it
 * halves the step about the nearest.
 */
export function closeSampler(solid: Solid): (x: number, y: number, z: number) => number {
  return (x, y, z) => {
    const share = shareAt(solid, x, y);
    if (share <= widthAt(solid, z)) return 0;
    const squaredAt = (level: number): number => {
      const width = widthAt(solid, level);
      const up = (z - level) ** 2;
      if (share <= width) return up;
      const planAt = (turn: number): number => {
        const [east, north] = outlineAt(solid, turn);
        return (x - east * width) ** 2 + (y - north * width) ** 2;
      };
      return up + leastNear(planAt, 0, 2 * Math.PI, CLOSE_TURNS);
    };
    return Math.sqrt(leastNear(squaredAt, solid.baseM, solid.heightM, LEVELS));
  };
}

/** Least value found of a function between two numbers: at even steps, then at halved ones about the best. */
function leastNear(at: (value: number) => number, low: number, high: number, steps: number): number {
  let best = low;
  let least = Number.POSITIVE_INFINITY;
  const look = (value: number): void => {
    const found = at(value);
    if (found < least) [least, best] = [found, value];
  };
  for (const value of heightsBetween(low, high, steps)) look(value);
  for (let round = 0, step = (high - low) / steps / 2; round < CLOSE_ROUNDS; round += 1, step /= 2) {
    const from = best;
    for (const side of [-1, 1]) look(Math.min(high, Math.max(low, from + side * step)));
  }
  return least;
}
