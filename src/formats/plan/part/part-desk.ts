import { findHiders, type Hiders } from "../../../core/conflict/find-hiders.ts";
import { type HiddenArea, type KnownViews, knownViews } from "../../../core/conflict/known-views.ts";
import type { ConflictRecord } from "../../../core/model/conflict.ts";
import { treeTable } from "../../../core/model/tree-table.ts";
import type { Tree } from "../../../core/model/trees.ts";
import { type PartGround, type PlannedPart, planPart } from "../../../core/plan-part.ts";
import type { SightEnvelope } from "../../../core/surroundings/surroundings.ts";
import { type EncodedPart, encodePart } from "./encoded-part.ts";

/** A planned part as a whole plan keeps it: without the space that pruning frees, which is most of its memory. */
export type KeptPart = Pick<PlannedPart, "settings" | "prescriptions" | "findings"> & {
  readonly conflicts: readonly ConflictRecord[];
};

/** Plans parts of a run's trees one after another, on whichever thread; the same part gives the same on any. */
export class PartDesk {
  readonly #ground: PartGround;
  readonly #places = new Map<SightEnvelope, number>();
  #viewsOf: ((trunkNumbers: ReadonlyMap<string, number>) => KnownViews) | null = null;

  constructor(ground: PartGround) {
    this.#ground = ground;
    ground.surroundings.envelopes.forEach((envelope, place) => {
      if (envelope.type === "sight") this.#places.set(envelope, place);
    });
  }

  /** What a part hides of areas of sight. */
  hiders(trees: readonly Tree[]): Hiders {
    const { surroundings, standard, options } = this.#ground;
    return findHiders(treeTable(trees), surroundings, standard, options, (envelope) => this.#places.get(envelope)!);
  }

  /** Takes what all trees together hide, before the first part is planned. */
  know(sight: readonly HiddenArea[]): void {
    const { surroundings, standard } = this.#ground;
    this.#viewsOf = knownViews(sight, surroundings, standard);
  }

  /** The part as bytes of a plan's files. */
  encode(trees: readonly Tree[], trunkNumbers: ReadonlyMap<string, number>): EncodedPart {
    return encodePart(this.#plan(trees, trunkNumbers), this.#ground.standard, this.#ground.options);
  }

  /** The part as a plan's records. */
  keep(trees: readonly Tree[], trunkNumbers: ReadonlyMap<string, number>): KeptPart {
    const { settings, prescriptions, findings, conflicts } = this.#plan(trees, trunkNumbers);
    return {
      settings,
      prescriptions,
      findings,
      conflicts: conflicts.map(({ region: _region, solid: _solid, ...record }) => record),
    };
  }

  #plan(trees: readonly Tree[], trunkNumbers: ReadonlyMap<string, number>): PlannedPart {
    if (this.#viewsOf === null) throw new TypeError("Expected the views to be known before a part is planned");
    return planPart(trees, this.#ground, this.#viewsOf(trunkNumbers));
  }
}
