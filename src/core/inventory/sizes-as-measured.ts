import type { Place } from "../model/plan.ts";
import type { Size, Tree } from "../model/trees.ts";
import { type Allometry, createAllometry } from "./allometry/allometry.ts";
import { chooseRegion } from "./allometry/reference-region.ts";
import { completeSizes } from "./complete-sizes.ts";
import type { InventoryMedians } from "./inventory-medians.ts";
import type { MeasuredSizes } from "./measured-sizes.ts";
import { speciesMatcher } from "./species/match-species.ts";

/** No inventory stands behind one tree: what has no equation is kept in its proportions instead. */
const NO_MEDIANS: Pick<InventoryMedians, "find"> = { find: () => null };

/**
 * A function that makes the sizes of a tree anew that were not measured, after its stem or height was: by the same allometry as when it was read; where
 * that has no equation for it, or its stem is unknown, crown base and radius keep their share of the height.
 */
export function sizesAsMeasured(place: Place): (tree: Tree, before: Tree) => Tree {
  let allometry: Allometry | null = null;
  const match = speciesMatcher();
  return (tree, before) => {
    const isLow = tree.form === "hedge" || tree.form === "shrub";
    allometry ??= createAllometry(chooseRegion(place).region);
    const { allometry: allometryName } = match(tree.species, tree.commonName, kindOf(tree));
    const isKnown = tree.dbhM !== null && !isLow && allometry.expect(allometryName, tree.dbhM) !== null;
    if (!isKnown) return inProportion(tree, before);
    const measured: MeasuredSizes = {
      dbhM: tree.dbhM,
      dbhClass: tree.dbhLowM == null || tree.dbhHighM == null ? null : { lowM: tree.dbhLowM, highM: tree.dbhHighM },
      height: ifMeasured(tree.height),
      crownBase: ifMeasured(tree.crownBase),
      radius: ifMeasured(tree.radius),
      radii: tree.radius.basis === "measured" ? tree.radii : null,
      stems: null,
      setAside: new Set(),
    };
    const medians = NO_MEDIANS as InventoryMedians;
    const sizes = completeSizes(measured, { traits: tree.traits, allometryName, form: tree.form, allometry, medians });
    return { ...tree, ...sizes };
  };
}

const ifMeasured = (size: Size): Size | null => (size.basis === "measured" ? size : null);

function kindOf({ form, traits }: Tree): Parameters<ReturnType<typeof speciesMatcher>>[2] {
  if (form === "palm") return "palm";
  const leaf = traits.isEvergreen ? "evergreen" : "deciduous";
  return traits.isConifer ? `conifer-${leaf}` : `broadleaf-${leaf}`;
}

/** Crown base and radius, where they were not measured, in the share of the height that they had. */
function inProportion(tree: Tree, before: Tree): Tree {
  if (!(before.height.valueM > 0)) return tree;
  const by = tree.height.valueM / before.height.valueM;
  const grown = (size: Size): Size =>
    size.basis === "measured" || by === 1
      ? size
      : { ...size, valueM: size.valueM * by, lowM: size.lowM * by, highM: size.highM * by };
  const { northM, eastM, southM, westM } = tree.radii;
  const radius = grown(tree.radius);
  if (radius === tree.radius) return { ...tree, crownBase: grown(tree.crownBase) };
  const radii = { northM: northM * by, eastM: eastM * by, southM: southM * by, westM: westM * by };
  return { ...tree, crownBase: grown(tree.crownBase), radius, radii };
}
