import type { ConflictKind } from "../model/terms.ts";
import type { Source } from "./standard.ts";

/** What makes branches hang lower than on the day they were measured. Leaf and rain come together; ice comes alone. */
export const DROOP_LOADS = ["leaf", "rain", "ice"] as const;
export type DroopLoad = (typeof DROOP_LOADS)[number];

/** How much lower branches hang under one load. It belongs to the target of pruning, never to a minimum. */
export interface DroopRule {
  readonly id: string;
  readonly load: DroopLoad;
  readonly amountM: number;
  /** Kinds of things it hangs over. */
  readonly kinds: readonly ConflictKind[];
  readonly appliesTo: "all" | "deciduous" | "evergreen";
  /** Hardiness zone up to which it applies, itself included; an unknown zone counts as colder. Null for every zone. */
  readonly upToZone: number | null;
  readonly source: Source;
}
