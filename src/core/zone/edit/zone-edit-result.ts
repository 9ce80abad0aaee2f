import type { Finding } from "../../model/finding.ts";
import type { Zone } from "../../model/zone.ts";
import type { ZoneEdit } from "./zone-edit.ts";

/** A way out that is offered with a finding: an edit to apply as it is. */
export interface ZoneMend {
  /** For a button, such as `Move them here`. */
  readonly label: string;
  readonly edit: ZoneEdit;
  /** `instead` of the edit that was refused, or `after` the one that was applied. */
  readonly when: "instead" | "after";
}

/** What an edit of the zones has to say. `error`: it was not done, or not for these trees. `warning`: done, with doubt. `info`: done, worth knowing. */
export interface ZoneEditFinding extends Finding {
  /** The zone concerned; null where none is. */
  readonly zoneId: string | null;
  /** The trees concerned. */
  readonly treeIds: readonly string[];
  readonly mends: readonly ZoneMend[];
}

/** A zone before and after an edit; null where it was not there. */
export interface ZoneChange {
  readonly zoneId: string;
  readonly before: Zone | null;
  readonly after: Zone | null;
}

export interface ZoneEditResult {
  /** Zones that did not change are the same objects; a refused edit gives back the very array it was given. */
  readonly zones: readonly Zone[];
  /** Nothing was done; the findings of severity `error` say why. */
  readonly isRefused: boolean;
  /** In the order of the zones, those that are gone first. */
  readonly changes: readonly ZoneChange[];
  readonly findings: readonly ZoneEditFinding[];
}

/** What one kind of edit comes to. */
export type Outcome =
  | { readonly zones: readonly Zone[]; readonly findings: readonly ZoneEditFinding[] }
  | { readonly refused: readonly ZoneEditFinding[] };
