import type { Point } from "geojson";
import { readTrees } from "../../../src/core/inventory/read-trees.ts";
import type { ColumnMap } from "../../../src/core/model/column-map.ts";
import type { SourceFeature } from "../../../src/core/model/feature.ts";
import { HABITS, type Habit } from "../../../src/core/model/terms.ts";
import type { Size, Tree } from "../../../src/core/model/trees.ts";
import { OPTIONS, STANDARD } from "../../core/conflict/scene.ts";
import { seeded } from "../brute-force/seeded.ts";
import { CAMPUS_TREES, type CampusTree } from "./campus-sizes.ts";
import { type Beside, lonLatOf, THINGS } from "./places.ts";

/** A tree as it is, what stands beside it, and the row that an inventory has of it. */
export interface Truth {
  readonly is: CampusTree;
  readonly beside: Beside;
  readonly row: Record<string, unknown>;
}

/** 90 % of a normal distribution lie within so many standard deviations. */
const SIGMAS = 1.645;
/** The stated errors of measurement: half the 90 % interval, as a share of height and radius, in meters of the crown base. */
const ERROR = { share: 0.1, baseM: 0.3 };
export const COLUMNS: ColumnMap = { trees: { dbh: { column: "dbh", unit: "cm" } } };

/**
 * Campus trees, each as often as asked, beside a thing drawn at random; their rows measured with errors drawn from the stated model, or with nothing
 * but the names and the stem.
 */
export function draw(seed: number, times: number, isMeasured: boolean): Truth[] {
  const next = seeded(seed);
  const drawn: Truth[] = [];
  for (let turn = 0; turn < times; turn += 1) {
    for (const is of STANDING) {
      const thing = THINGS[Math.floor(next() * THINGS.length)]!;
      const beside = {
        thing,
        distanceM: 0.3 + next() * 1.2 * is.radiusM,
        heightM: thing === "wire" ? 5 + next() * 8 : 3 + next() * 9,
      };
      const named = { species: is.species, common_name: is.commonName, dbh: is.dbhCm };
      const error = (): number => normal(next) / SIGMAS;
      const heightM = is.heightM * (1 + ERROR.share * error());
      const baseM = Math.max(0, is.baseM + ERROR.baseM * error());
      const radiusM = is.radiusM * (1 + ERROR.share * error());
      const sizes = { height: heightM, crown_base: Math.min(baseM, heightM - 0.31), crown_radius: radiusM };
      drawn.push({ is, beside, row: isMeasured ? { ...named, ...sizes } : named });
    }
  }
  return drawn;
}

function treeFeature(properties: Record<string, unknown>, index: number): SourceFeature<Point> {
  const geometry: Point = { type: "Point", coordinates: lonLatOf(index) };
  return { layer: "trees", file: "trees.geojson", index, ordinal: index, id: null, properties, geometry };
}

/** The trees that the tool makes of the rows; one a row, in their order. */
export function seenTrees(truths: readonly Truth[]): Tree[] {
  const features = truths.map(({ row }, index) => treeFeature(row, index));
  const { trees } = readTrees(features, COLUMNS, STANDARD, {
    ...OPTIONS,
    place: { hardinessZone: null, region: "CA-BC" },
  });
  if (trees.length !== truths.length) throw new Error(`Expected ${truths.length} trees, got ${trees.length}`);
  return trees;
}

/** The trees as they are: true sizes without a doubt, with the profile that the tool gives the species, or with one drawn at random. */
export function trueTrees(
  truths: readonly Truth[],
  seen: readonly Tree[],
  habits: "as-seen" | "any",
  seed = 5,
): Tree[] {
  const next = seeded(seed);
  return truths.map(({ is }, index) => {
    const size = (valueM: number): Size => ({
      valueM,
      lowM: valueM,
      highM: valueM,
      basis: "measured",
      source: "truth",
    });
    const { radiusM } = is;
    const habit: Habit = habits === "any" ? HABITS[Math.floor(next() * HABITS.length)]! : seen[index]!.habit;
    return {
      ...seen[index]!,
      habit,
      height: size(is.heightM),
      crownBase: size(is.baseM),
      radius: size(radiusM),
      radii: { northM: radiusM, eastM: radiusM, southM: radiusM, westM: radiusM },
    };
  });
}

/** Those of the campus trees that the reader takes for trees: a few are called stumps. */
const STANDING: readonly CampusTree[] = (() => {
  const features = CAMPUS_TREES.map((is, index) =>
    treeFeature({ species: is.species, common_name: is.commonName }, index),
  );
  const { trees } = readTrees(features, COLUMNS, STANDARD, OPTIONS);
  return trees.map(({ ordinal }) => CAMPUS_TREES[ordinal]!);
})();

/** Box and Muller's. */
const normal = (next: () => number): number => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
