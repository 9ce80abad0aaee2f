import type { RoadClass, SightArea, SurroundingFeature } from "../model/surroundings.ts";
import type { Basis, Certainty, ConflictKind, Hazard, Layer } from "../model/terms.ts";
import type { PlaneShapes } from "../plane/plane-shapes.ts";
import type { LinesOfSight } from "./sight/lines-of-sight.ts";

/** What stands around the trees: as a plan shows it, and as the conflict search reads it. */
export interface Surroundings {
  /** In layer order, then input order. */
  readonly features: readonly SurroundingFeature[];
  readonly sight: readonly SightArea[];
  /** Everything a crown can be too close to; shapes refer to it by position. */
  readonly envelopes: readonly Envelope[];
  /** Shapes by plane number; a plane without any is absent. */
  readonly planes: ReadonlyMap<number, PlaneShapes>;
  /** Poles to be kept clear, if the standard asks for it; in input order. */
  readonly poles: readonly PoleAround[];
  readonly given: ReadonlySet<Layer>;
  /** Kinds that cannot be measured with these layers, or not by this version. */
  readonly notChecked: readonly ConflictKind[];
}

export type Envelope = BuildingEnvelope | WayEnvelope | SightEnvelope | ConductorEnvelope;

interface Named {
  readonly withLayer: Layer | "sight";
  readonly withId: string;
  readonly withName: string | null;
}

export interface BuildingEnvelope extends Named {
  readonly type: "building";
  /** Height of the eaves, taken as the building's height: roofs are flat in this version. */
  readonly heightM: number;
  readonly heightBasis: Basis;
  /** Height of its underside: 0 where it stands on the ground, more for a roof on columns or a part that juts out. */
  readonly bottomM: number;
  readonly bottomBasis: Basis;
}

export type WayKind = "roadway" | "bus-route" | "fire-lane" | "walkway" | "bikeway";

export interface WayEnvelope extends Named {
  readonly type: "way";
  readonly kind: WayKind;
  /** An area is the way itself; a line is its center, half the width to either side. */
  readonly shape: "area" | "line";
  /** Half widths in meters; all 0 for an area. */
  readonly halfWidth: { readonly minM: number; readonly typicalM: number; readonly maxM: number };
  readonly widthBasis: Basis;
  readonly roadClass: RoadClass | null;
  readonly speedKmh: number | null;
  /** A centerline on a surveyed traveled way: it names the road and its speed, the area decides the clearance. */
  readonly isCovered: boolean;
  /** A walkway or bikeway placed beside a road by assumption: its conflicts are at most this sure, for this reason. */
  readonly beside?: { readonly certainty: Certainty; readonly doubt: string };
}

export interface SightEnvelope extends Named {
  readonly type: "sight";
  readonly area: SightArea;
  /** The surest that a conflict with it can be; left out where only the area's own doubt limits it. */
  readonly atMost?: Certainty;
  /** Left out where the area asks for free ground and no positions of vehicles are looked at. */
  readonly lines?: LinesOfSight;
  /** What it is when too much of it is hidden. */
  readonly hazard?: Hazard | null;
}

export interface ConductorEnvelope extends Named {
  readonly type: "conductor";
  /** Line-to-line voltage in volts; null when unknown. */
  readonly voltageV: number | null;
  /** Rule of the standard for its voltage; null where there is none. */
  readonly ruleId: string | null;
  readonly attachmentBasis: Basis;
  readonly sagBasis: Basis;
  /** Of the wire's size and weight, by which it sags in heat and swings. */
  readonly conductorBasis: Basis;
  /** `tree wire`, `aerial cable` or as recorded; null when not recorded or bare. */
  readonly insulation: string | null;
  readonly isCommunication: boolean;
  /** Ids of its spans; shapes refer to them by position. */
  readonly spanIds: readonly string[];
}

/** A pole about which the standard asks for a cleared cylinder. */
export interface PoleAround {
  readonly id: string;
  readonly lonDeg: number;
  readonly latDeg: number;
  /** Height of its highest attachment, as recorded or assumed. */
  readonly attachmentM: number;
}
