import type { Position } from "geojson";
import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
import type { ZoneEditResult } from "../../core/zone/edit/zone-edit-result.ts";

/** What a drawn shape is for. */
export type DrawingPurpose =
  | { readonly for: "make" }
  | { readonly for: "add"; readonly zoneId: string }
  | { readonly for: "split"; readonly zoneId: string };

/** A shape being drawn, and what it would do as it stands. */
export interface Drawing {
  readonly purpose: DrawingPurpose;
  /** Null while it has too few corners. */
  readonly edit: ZoneEdit | null;
  readonly result: ZoneEditResult | null;
}

/** The edit that a drawn shape stands for: an outline around trees, or a line across a zone. */
export function editOfShape(purpose: DrawingPurpose, positions: readonly Position[]): ZoneEdit {
  if (purpose.for === "split") return { kind: "split", zoneId: purpose.zoneId, at: { by: "line", line: positions } };
  const trees = { within: [positions] };
  return purpose.for === "make" ? { kind: "make", trees } : { kind: "add", zoneId: purpose.zoneId, trees };
}
