import type { Zone } from "../../core/model/zone.ts";
import type { InspectStop } from "../../core/plan/inspect/inspect-stop.ts";
import type { FontSet } from "../../formats/pdf/font-set.ts";
import type { Paper } from "../../formats/pdf/sheet.ts";

/** What the page sends the worker: first what to work on, answers to `read`, and any number of wishes for packets. */
export type InspectRequest =
  | { readonly type: "begin" }
  | { readonly type: "file"; readonly turn: number; readonly bytes: Uint8Array | null; readonly problem: string | null }
  | { readonly type: "packet"; readonly zoneId: string; readonly paper: Paper; readonly fonts: FontSet };

/** What the worker sends: files of the plan that it wants, how far it is, the rounds part by part and that they are all there; then packets. */
export type InspectAnswer =
  | { readonly type: "read"; readonly turn: number; readonly name: string }
  | { readonly type: "progress"; readonly share: number; readonly doing: string }
  | { readonly type: "stops"; readonly stops: readonly InspectStop[] }
  | { readonly type: "zones"; readonly zones: readonly Zone[] }
  | { readonly type: "done"; readonly csv: Uint8Array }
  | { readonly type: "packed"; readonly name: string; readonly bytes: Uint8Array }
  | { readonly type: "failed"; readonly of: "rounds" | "packet"; readonly reason: string };
