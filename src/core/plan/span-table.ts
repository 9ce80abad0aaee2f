import type { Plan } from "../model/plan.ts";
import type { SurroundingFeature } from "../model/surroundings.ts";
import { CERTAINTIES, CREWS } from "../model/terms.ts";
import { type FlatValue, rounded } from "./bough-properties.ts";
import type { Table } from "./plan-tables.ts";
import { noSums, partSpans, type SpanSums } from "./span-sums.ts";

/**
 * One row a span of every overhead line, in the order of the lines: what a utility reads first. Trees in reach are those whose crown may come
 * nearer than the clear-to within two cycles, by estimate; a conflict counts at the span that comes nearest. The crew is the most restricted one that
 * a tree with a conflict there needs next.
 */
export function spanTable(plan: Plan): Table {
  const { trees, settings, conflicts, prescriptions } = plan;
  return spanTableOf(plan.surroundings, partSpans(trees, settings, conflicts, prescriptions));
}

/** The same of a plan whose parts were added up ({@link addSpans}). */
export function spanTableOf(surroundings: readonly SurroundingFeature[], sums: ReadonlyMap<string, SpanSums>): Table {
  const rows = surroundings.flatMap((line) => {
    const { wire } = line;
    if (wire === undefined) return [];
    return wire.spanIds.map((spanId, at): FlatValue[] => {
      const found = sums.get(spanId) ?? noSums();
      return [
        line.name,
        line.id,
        spanId,
        meters(wire.spanLengthsM[at] ?? null),
        line.voltageV,
        wire.ruleId,
        wire.minimumM === null ? null : rounded(wire.minimumM, 4),
        wire.clearToM === null ? null : rounded(wire.clearToM, 4),
        wire.insulation,
        found.inReach,
        ...found.byCertainty,
        meters(found.nearest?.gapM ?? null),
        found.nearest?.treeId ?? null,
        found.nearest?.loadCase ?? null,
        CREWS[found.crew] ?? null,
        found.referred,
        found.strikes,
      ];
    });
  });
  return {
    header: [
      "circuit",
      "line",
      "span",
      "length_m",
      "voltage_v",
      "rule",
      "minimum_m",
      "clear_to_m",
      "insulation",
      "trees_in_reach",
      ...CERTAINTIES,
      "least_gap_m",
      "nearest_tree",
      "load_case",
      "crew",
      "referred_trees",
      "strike_trees",
    ],
    rows,
  };
}

const meters = (value: number | null): number | null => (value === null ? null : rounded(value, 3));
