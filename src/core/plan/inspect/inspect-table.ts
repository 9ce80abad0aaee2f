import type { Plan } from "../../model/plan.ts";
import type { InspectStop } from "./inspect-stop.ts";
import { SETTLING_FIGURES } from "./settling.ts";

/** Columns of the list of what to inspect, a row a question; lengths in meters. For each figure the value from which the conflict is gone, and from which it holds. */
export const INSPECT_COLUMNS: readonly string[] = [
  "round",
  "order",
  "tree",
  "species",
  "street",
  "address",
  "longitude",
  "latitude",
  "kind",
  "with",
  "bearing_deg",
  "distance_m",
  "estimated_m",
  "needed_m",
  ...SETTLING_FIGURES.flatMap((figure) => {
    const name = figure.replaceAll("-", "_");
    return [`${name}_gone_m`, `${name}_gone_for`, `${name}_holds_m`];
  }),
  "referral",
  "doubt",
];

/** The rows in the order of the rounds; a tree that is referred without a question has one row. */
export function inspectRows(rounds: Plan, stops: readonly InspectStop[]): (string | number | null)[][] {
  const byTree = new Map(stops.map((stop) => [stop.treeId, stop]));
  return rounds.zones.flatMap((zone) =>
    zone.treeIds.flatMap((treeId, at) => {
      const stop = byTree.get(treeId)!;
      const tree = rounds.trees[stop.treeRow]!;
      const head = [zone.zoneId, at + 1, treeId, tree.species, tree.street, tree.address];
      const place = [fixed(tree.lonDeg, 7), fixed(tree.latDeg, 7)];
      const refer = stop.refer?.code ?? null;
      if (stop.questions.length === 0) {
        return [[...head, ...place, ...Array<null>(6 + 3 * SETTLING_FIGURES.length).fill(null), refer, null]];
      }
      return stop.questions.map(({ conflict, settlings }) => [
        ...head,
        ...place,
        conflict.kind,
        conflict.withName ?? conflict.withId,
        fixed(conflict.bearingDeg, 1),
        fixed(conflict.distanceM, 2),
        fixed(conflict.measuredM, 2),
        fixed(conflict.minimumM, 2),
        ...SETTLING_FIGURES.flatMap((figure) => {
          const one = settlings.find((settling) => settling.figure === figure);
          return one === undefined ? [null, null, null] : [meters(one.goneAtM), one.goneFor, meters(one.holdsAtM)];
        }),
        refer,
        conflict.doubt,
      ]);
    }),
  );
}

const fixed = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;
const meters = (value: number | null): number | null => (value === null ? null : fixed(value, 2));
