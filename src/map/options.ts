import type { StyleSpecification } from "maplibre-gl";
import type { ConflictKind, Crew, Remedy, Urgency } from "../core/model/terms.ts";
import type { IsoDate } from "../core/units/calendar.ts";
import type { DisplayUnits } from "../core/units/format-length.ts";
import type { ThemeName } from "./tokens.ts";
import type { PartialWords } from "./words.ts";

/** What of a plan is drawn. */
export const PARTS = ["surroundings", "conductors", "sight", "zones", "crowns", "marks", "labels", "solids"] as const;
export type Part = (typeof PARTS)[number];
/** What is drawn unless a host says otherwise: all but the solids, which want a tilted map. */
export const FLAT_PARTS: readonly Part[] = PARTS.filter((part) => part !== "solids");

export interface LayerOptions {
  /** Default `light`; `print` is black on white, for paper and for screens that are photographed. */
  readonly theme?: ThemeName;
  /** Units of the lengths written on the map and in the panel. Default: the plan's own. */
  readonly units?: DisplayUnits;
  /** Parts to draw. Default: all but `solids`; `surroundings` only where the map shows nothing of its own. */
  readonly parts?: readonly Part[];
  /** Fonts of the labels. Default: those of the map's first labels where it has a glyphs address, else a local sans. */
  readonly textFont?: readonly string[];
  /** Words in place of the English ones. */
  readonly words?: PartialWords;
}

export interface AddOptions extends LayerOptions {
  /** Layer of the host below which everything goes. Default: the host's first symbol layer. */
  readonly beforeId?: string | ((style: StyleSpecification) => string | undefined);
  /** Whether the map moves to the plan's trees once a plan has been opened by `load`. Default false. */
  readonly fit?: boolean;
}

/** Which trees keep their marks; every given member must hold. Others stay as quiet dots. */
export interface TreeFilter {
  readonly urgencies?: readonly Urgency[];
  readonly remedies?: readonly Remedy[];
  readonly crews?: readonly Crew[];
  readonly kinds?: readonly ConflictKind[];
  /** Next visit due on or after this day. */
  readonly dueFrom?: IsoDate;
  /** Next visit due on or before this day. */
  readonly dueTo?: IsoDate;
  readonly zoneIds?: readonly string[];
  readonly treeIds?: readonly string[];
  readonly overdueOnly?: boolean;
}
