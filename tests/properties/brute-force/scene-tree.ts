import { HABITS } from "../../../src/core/model/terms.ts";
import type { TreeGiven } from "../../core/conflict/scene.ts";
import type { Solid } from "./solid.ts";

/** One tree of a scene: its solid, where the crown's axis and the trunk's foot stand, and the same as the engine takes it. */
export interface SceneTree {
  readonly solid: Solid;
  readonly axis: readonly [number, number];
  readonly foot: readonly [number, number];
  readonly given: TreeGiven;
}

/** A tree near the middle of the scene, of any habit, round or with four radii, upright or with its crown beside it, measured to a thousandth. */
export function randomTree(next: () => number): SceneTree {
  const habit = HABITS[Math.floor(next() * HABITS.length)]!;
  const heightM = 3 + next() * 17;
  const baseM = next() < 0.1 ? 0 : next() * heightM * 0.7;
  const radius = (): number => 0.8 + next() * 6;
  const even = radius();
  const radii: Solid["radii"] = next() < 0.5 ? [even, even, even, even] : [radius(), radius(), radius(), radius()];
  const foot: [number, number] = [(next() - 0.5) * 6, (next() - 0.5) * 6];
  const isBeside = next() < 0.25;
  const aside: [number, number] = isBeside ? [(next() - 0.5) * 6, (next() - 0.5) * 6] : [0, 0];
  const [northM, eastM, southM, westM] = radii;
  return {
    solid: { habit, heightM, baseM, radii },
    axis: [foot[0] + aside[0], foot[1] + aside[1]],
    foot,
    given: {
      id: "t",
      x: foot[0],
      y: foot[1],
      heightM,
      baseM,
      habit,
      radiusM: (northM + eastM + southM + westM) / 4,
      radii: { northM, eastM, southM, westM },
      error: 0.001,
      more: isBeside ? { crownEastM: aside[0], crownNorthM: aside[1] } : {},
    },
  };
}
