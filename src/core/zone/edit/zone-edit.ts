import type { Position } from "geojson";
import type { ZoneState } from "../../model/terms.ts";
import type { AskedWindow } from "../../model/zone.ts";
import type { IsoDate } from "../../units/calendar.ts";

/**
 * What an edit may do beyond what it does by itself: take trees out of other zones, put trees into a zone whose crew may not do them so that it
 * needs a more restricted one, take trees inside a drawn outline whose work is wanted only in a later year.
 */
export const ZONE_ALLOWANCES = ["take-from-others", "raise-crew", "later-work"] as const;
export type ZoneAllowance = (typeof ZONE_ALLOWANCES)[number];

/** Trees by their ids, or those inside the rings of a polygon in longitude and latitude (even-odd; closing position optional). */
export type TreeChoice =
  | { readonly treeIds: readonly string[] }
  | { readonly within: readonly (readonly Position[])[] };

/**
 * Where a zone is parted: chosen trees from the rest; along a line in longitude and latitude, drawn on straight beyond its ends; into crew-days
 * along its order of work; or where its work lies too far apart.
 */
export type SplitAt =
  | { readonly by: "trees"; readonly treeIds: readonly string[] }
  | { readonly by: "line"; readonly line: readonly Position[] }
  | { readonly by: "days" }
  | { readonly by: "islands" };

/** One edit of the zones of a plan, as plain data: it can be kept, sent and applied again. */
export type ZoneEdit =
  /** A new zone. Its name is found where none is given. */
  | {
      readonly kind: "make";
      readonly trees: TreeChoice;
      readonly name?: string;
      readonly allow?: readonly ZoneAllowance[];
    }
  | {
      readonly kind: "add";
      readonly zoneId: string;
      readonly trees: TreeChoice;
      readonly allow?: readonly ZoneAllowance[];
    }
  /** Out of the zones they are in. A zone left empty goes. */
  | { readonly kind: "drop"; readonly treeIds: readonly string[] }
  /** The part with the first tree keeps id, name and planned day; with chosen trees the rest does, of islands the largest. */
  | { readonly kind: "split"; readonly zoneId: string; readonly at: SplitAt }
  /** Into the first of the zones. */
  | { readonly kind: "merge"; readonly zoneIds: readonly string[]; readonly allow?: readonly ZoneAllowance[] }
  | { readonly kind: "rename"; readonly zoneId: string; readonly name: string }
  | { readonly kind: "lock"; readonly zoneId: string; readonly isLocked: boolean }
  /** One tree to another place in the order of work, 0 for the first. */
  | { readonly kind: "move-stop"; readonly zoneId: string; readonly treeId: string; readonly to: number }
  /** A whole order of work; left out, a short walk is searched for. */
  | { readonly kind: "order"; readonly zoneId: string; readonly treeIds?: readonly string[] }
  | { readonly kind: "set-state"; readonly zoneId: string; readonly state: ZoneState }
  /** What is left out stays; null takes a date back. */
  | {
      readonly kind: "set-dates";
      readonly zoneId: string;
      readonly askedWindow?: AskedWindow | null;
      readonly plannedOn?: IsoDate | null;
    }
  /** Its trees are in no zone afterwards. */
  | { readonly kind: "delete"; readonly zoneId: string }
  /** One after the other, all or none. */
  | { readonly kind: "sequence"; readonly edits: readonly ZoneEdit[] };

/** An edit of one kind. */
export type EditOf<Kind extends ZoneEdit["kind"]> = Extract<ZoneEdit, { readonly kind: Kind }>;
