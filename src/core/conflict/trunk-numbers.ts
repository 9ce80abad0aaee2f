import type { Tree } from "../model/trees.ts";
import type { TrunkInSight } from "./find-hiders.ts";
import { trunkKey } from "./trunk-in-sight.ts";

/** Numbers the trunks in each area of sight in input order, so that a part of the trees can tell which of them its own are. */
export class TrunkNumbers {
  readonly #counts = new Map<string, number>();
  readonly #ofTree = new Map<number, { readonly areaId: string; readonly number: number }[]>();

  /** Counts the trunks of trees that come after all those counted. */
  count(trunks: readonly TrunkInSight[]): void {
    for (const [row, areaId] of trunks) {
      const number = (this.#counts.get(areaId) ?? 0) + 1;
      this.#counts.set(areaId, number);
      const own = this.#ofTree.get(row);
      if (own === undefined) this.#ofTree.set(row, [{ areaId, number }]);
      else own.push({ areaId, number });
    }
  }

  /** The numbers of some trees, by `trunkKey`. */
  ofPart(trees: readonly Tree[]): Map<string, number> {
    return new Map(
      trees.flatMap(({ row }) =>
        (this.#ofTree.get(row) ?? []).map(({ areaId, number }) => [trunkKey(row, areaId), number] as const),
      ),
    );
  }
}
