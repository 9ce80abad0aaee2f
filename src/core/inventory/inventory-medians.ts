import type { Form } from "../model/terms.ts";
import type { SpeciesTraits } from "../model/trees.ts";

/** Median of some measured trees with the range that holds nine in ten of them. */
export interface Median {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** What it was taken of, in words. */
  readonly source: string;
}

export type MedianOf = "height" | "base-share" | "radius-share";

/** Fewer trees make no median; our policy. */
const LEAST_TREES = 5;

/** Medians of the inventory's own measured trees: by species, genus, type, and of all with the same form. */
export interface InventoryMedians {
  readonly add: (of: MedianOf, traits: SpeciesTraits, form: Form, value: number) => void;
  /** The median of the narrowest group with at least five trees; null when there is none. */
  readonly find: (of: MedianOf, traits: SpeciesTraits, form: Form) => Median | null;
}

/** No trees yet. Shares are of the tree's height. Groups are ordered lists once the first median is asked for. */
export function inventoryMedians(): InventoryMedians {
  const values = new Map<string, number[]>();
  const medians = new Map<string, Median | null>();
  return {
    add(of, traits, form, value) {
      for (const { key } of groupsOf(traits, form)) {
        const list = values.get(`${of}|${key}`) ?? [];
        list.push(value);
        values.set(`${of}|${key}`, list);
      }
    },
    find(of, traits, form) {
      for (const { key, label } of groupsOf(traits, form)) {
        const name = `${of}|${key}`;
        let median = medians.get(name);
        if (median === undefined) {
          median = medianOf(values.get(name) ?? [], label);
          medians.set(name, median);
        }
        if (median !== null) return median;
      }
      return null;
    },
  };
}

function groupsOf(traits: SpeciesTraits, form: Form): { key: string; label: string }[] {
  if (form === "hedge" || form === "shrub") return [{ key: `form ${form}`, label: `${form}s` }];
  const groups: { key: string; label: string }[] = [];
  if (traits.matchedBy === "species") groups.push({ key: `species ${traits.matchedName}`, label: traits.matchedName });
  if (traits.genus !== "") groups.push({ key: `genus ${traits.genus}`, label: `genus ${traits.genus}` });
  if (traits.matchedBy !== "none") {
    const kind = traits.isConifer ? "conifers" : form === "palm" ? "palms" : "broadleaves";
    groups.push({ key: `kind ${kind}`, label: kind });
  }
  return [...groups, { key: "all", label: "trees" }];
}

function medianOf(values: number[], label: string): Median | null {
  if (values.length < LEAST_TREES) return null;
  const sorted = Float64Array.from(values).sort();
  return {
    value: quantile(sorted, 0.5),
    low: quantile(sorted, 0.05),
    high: quantile(sorted, 0.95),
    source: `median of ${sorted.length} ${label} measured in this inventory`,
  };
}

/** Quantile of an ascending list, linear between neighbors. */
function quantile(sorted: Float64Array, share: number): number {
  const at = (sorted.length - 1) * share;
  const below = sorted[Math.floor(at)]!;
  const above = sorted[Math.ceil(at)]!;
  return below + (above - below) * (at - Math.floor(at));
}
