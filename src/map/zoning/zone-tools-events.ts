import type { FeatureCollection, MultiPolygon } from "geojson";
import type { Zone } from "../../core/model/zone.ts";
import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
import type { ZoneEditFinding } from "../../core/zone/edit/zone-edit-result.ts";
import type { DrawingPurpose } from "./drawing.ts";

/** What the zone tools tell, by event name; each comes as the `detail` of a `CustomEvent`. */
export interface ZoneToolsEvents {
  /** The zones are others: after an edit, or with null for it after an undo or redo. */
  readonly zoneedit: {
    readonly edit: ZoneEdit | null;
    /** For a list of what was done: `Split the zone`, `Undo: Split the zone`. */
    readonly label: string;
    readonly zones: readonly Zone[];
    /** The same as `zones.geojson` of a plan folder holds them. */
    readonly features: FeatureCollection<MultiPolygon>;
  };
  /** Nothing of an edit was done; each finding says why and offers edits that mend it. */
  readonly zonerefuse: { readonly edit: ZoneEdit; readonly findings: readonly ZoneEditFinding[] };
  /** A shape is being drawn for this purpose or, with null, not any more. */
  readonly zonedraw: { readonly purpose: DrawingPurpose | null };
  /** Something the tools could not do. */
  readonly error: { readonly error: Error };
}
