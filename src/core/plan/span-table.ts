import type { ConflictRecord, SpanReach } from "../model/conflict.ts";
import type { Plan } from "../model/plan.ts";
import { CERTAINTIES, CREWS, type Crew } from "../model/terms.ts";
import { type FlatValue, rounded } from "./bough-properties.ts";
import type { Table } from "./plan-tables.ts";

/** A tree beside a wire that is referred, or inspected first, is looked at by people who may go near it. */
const REFERRED_CREW: Crew = "line-clearance";

/** What one span comes to, tree by tree. */
interface SpanSums {
  readonly inReach: Set<number>;
  readonly referred: Set<number>;
  readonly strikes: Set<number>;
  readonly conflicts: ConflictRecord[];
  nearest: { readonly reach: SpanReach; readonly treeId: string } | null;
}

/**
 * One row a span of every overhead line, in the order of the lines: what a utility reads first. Trees in reach are those whose crown may come
 * nearer than the clear-to within two cycles, by estimate; a conflict counts at the span that comes nearest. The crew is the most restricted one that
 * a tree with a conflict there needs next.
 */
export function spanTable(plan: Plan): Table {
  const sums = sumsOf(plan);
  const rows = plan.surroundings.flatMap((line) => {
    const { wire } = line;
    if (wire === undefined) return [];
    return wire.spanIds.map((spanId, at): FlatValue[] => {
      const found = sums.get(spanId) ?? noSums();
      const crews = found.conflicts.flatMap(
        ({ treeRow }) => plan.prescriptions[treeRow]?.visits[0]?.crew ?? REFERRED_CREW,
      );
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
        found.inReach.size,
        ...CERTAINTIES.map((certainty) => found.conflicts.filter((one) => one.certainty === certainty).length),
        meters(found.nearest?.reach.gapM ?? null),
        found.nearest?.treeId ?? null,
        found.nearest?.reach.loadCase ?? null,
        CREWS.findLast((crew) => crews.includes(crew)) ?? null,
        found.referred.size,
        found.strikes.size,
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

function sumsOf(plan: Plan): Map<string, SpanSums> {
  const sums = new Map<string, SpanSums>();
  const at = (spanId: string): SpanSums => {
    const known = sums.get(spanId) ?? noSums();
    sums.set(spanId, known);
    return known;
  };
  for (const [row, setting] of plan.settings.entries()) {
    for (const reach of setting.spans ?? []) {
      const span = at(reach.spanId);
      if (reach.canStrike) span.strikes.add(row);
      if (reach.gapM === null) continue;
      span.inReach.add(row);
      if (span.nearest !== null && reach.gapM >= (span.nearest.reach.gapM ?? 0)) continue;
      span.nearest = { reach, treeId: plan.trees[row]?.id ?? "" };
    }
  }
  for (const conflict of plan.conflicts) {
    if (conflict.spanId === null) continue;
    const span = at(conflict.spanId);
    span.conflicts.push(conflict);
    if ((plan.prescriptions[conflict.treeRow]?.refer ?? null) !== null) span.referred.add(conflict.treeRow);
  }
  return sums;
}

const noSums = (): SpanSums => ({
  inReach: new Set(),
  referred: new Set(),
  strikes: new Set(),
  conflicts: [],
  nearest: null,
});

const meters = (value: number | null): number | null => (value === null ? null : rounded(value, 3));
