import type { Geometry, MultiPolygon } from "geojson";
import type { LoadCaseId } from "./load-cases.ts";
import type { ConflictKind, Layer } from "./terms.ts";

/** What a plan shows of a surrounding feature, and what a conflict says it is with. */
export interface SurroundingFeature {
  /** Unique in its layer: own id as text, or `file#index`. */
  readonly id: string;
  readonly layer: Layer;
  readonly name: string | null;
  readonly kind: ConflictKind | "building" | "sign" | "signal" | null;
  /** Original geometry in longitude and latitude. */
  readonly geometry: Geometry;
  /** Width of the way in meters as minimum, typical and maximum with its source; null for areas and others. */
  readonly width: {
    readonly minM: number;
    readonly typicalM: number;
    readonly maxM: number;
    readonly source: string;
  } | null;
  /** Height in meters (building, sign, signal, attachment) with its source. */
  readonly heightM: number | null;
  readonly heightSource: string | null;
  readonly roadClass: RoadClass | null;
  readonly speedKmh: number | null;
  readonly speedSource: string | null;
  readonly lanes: number | null;
  /** Line-to-line voltage in volts; null when unknown or not a conductor. */
  readonly voltageV: number | null;
  /** What a road given as a line has across it; absent for all else. */
  readonly across?: RoadAcross;
  /** What is known of an overhead line's wire; absent for all else. */
  readonly wire?: WireRecord;
}

/** The parts of a road's width, left and right as one looks along its line. */
export interface RoadAcross {
  /** 1: one-way along the line, -1: against it, 0: both ways. */
  readonly oneway: -1 | 0 | 1;
  readonly laneM: number;
  /** Whether parking lanes are recorded; null where nothing is said. */
  readonly parking: { readonly left: boolean | null; readonly right: boolean | null };
  /** Recorded shoulders in meters, 0 for none; null where no width is recorded. */
  readonly shoulderM: { readonly left: number | null; readonly right: number | null };
}

/** An overhead line as the run took it. */
export interface WireRecord {
  /** A span a piece between two supports, in the order of the line. */
  readonly spanIds: readonly string[];
  readonly spanLengthsM: readonly number[];
  /** Heights above ground at which it hangs, a vertex of the line each, meters; absent in plans of an earlier version. */
  readonly attachmentsM?: readonly number[];
  /** Sag of each span in still air as recorded or assumed, in meters below its chord; absent in plans of an earlier version. */
  readonly sagsM?: readonly number[];
  /** Rule for its voltage, minimum at the place's altitude and clear-to in meters; null where the standard has none for it. */
  readonly ruleId: string | null;
  readonly minimumM: number | null;
  readonly clearToM: number | null;
  /** Load cases in which the minimum must hold. */
  readonly loadCases: readonly LoadCaseId[];
  readonly sagSource: string;
  readonly conductorSource: string;
  /** `tree wire`, `aerial cable` or as recorded; null when bare or not recorded. */
  readonly insulation: string | null;
  /** Number of wires, as recorded. */
  readonly cables: number | null;
}

/** Road classes the standard has widths and speeds for. */
export const ROAD_CLASSES = [
  "freeway",
  "major-arterial",
  "minor-arterial",
  "collector",
  "local-residential",
  "local-access",
  "service-alley",
  "rural-two-lane",
] as const;
export type RoadClass = (typeof ROAD_CLASSES)[number];

/** Kinds of conflict that hide something from a driver. */
export const SIGHT_KINDS = ["sight-triangle", "curve", "sign", "signal"] as const satisfies readonly ConflictKind[];
export type SightKind = (typeof SIGHT_KINDS)[number];

/** What a driver must be able to do, or to see, over an area of sight. */
export const SIGHT_MOVEMENTS = [
  "left-turn",
  "right-turn",
  "crossing",
  "yield",
  "no-control",
  "all-way-stop",
  "left-from-major",
  "right-on-red",
  "first-cars",
  "corner",
  "driveway",
  "curve",
  "sign-face",
  "signal-face",
] as const;
export type SightMovement = (typeof SIGHT_MOVEMENTS)[number];

export const ROAD_CONTROLS = ["stop", "all-way-stop", "yield", "signal", "none"] as const;
export type RoadControl = (typeof ROAD_CONTROLS)[number];

/** An area over which a driver must see: the triangle at an intersection, the inside of a curve, the wedge to the face of a sign or signal. */
export interface SightArea {
  /** Stable: made of positions, the leg and the movement, never of an order. */
  readonly id: string;
  readonly kind: SightKind;
  readonly movement: SightMovement;
  /** Road on which the hidden traffic is, or on which the driver comes. */
  readonly roadName: string | null;
  /** The side the driver looks to; null where there is only one. */
  readonly direction: "left" | "right" | null;
  /** How the driver's approach is controlled; null for curves, faces and corners of fixed legs. */
  readonly control: RoadControl | null;
  /** Where the control, the curve or the facing is taken from, in words; says so where it is assumed. */
  readonly controlSource: string;
  readonly designSpeedKmh: number;
  /** Length in meters along the road that must be seen, or from which the face must be. */
  readonly legM: number;
  /** Ring in longitude and latitude; the first position is the driver's eye, or the face for signs and signals. */
  readonly ring: readonly (readonly [number, number])[];
  /** The least and the greatest height that must be free anywhere in the area. */
  readonly windowLowM: number;
  readonly windowHighM: number;
  readonly ruleId: string;
  /** Why the area itself is in doubt, one sentence; null when speed and control are recorded. */
  readonly doubt: string | null;
  /** What trees hide in it; null where that is not measured. */
  readonly hidden: HiddenShare | null;
}

/** What trees hide of the length that must be seen, net of buildings: shares from 0 to 1 of the vehicle positions along it. */
export interface HiddenShare {
  readonly share: number;
  /** Length in meters that was looked at; less than `legM` where the road leaves the data. */
  readonly lookedAtM: number;
  /** Parts hidden, meters from the near end. */
  readonly partsM: readonly (readonly [number, number])[];
  /** Trees that hide something, in tree order: alone, and by how much the hidden share falls when only this tree is opened. */
  readonly trees: readonly { readonly treeId: string; readonly aloneShare: number; readonly marginalShare: number }[];
  /** The tree, or the trees in line, whose crowns out of the way would open most, and how much; null when no crown hides anything. */
  readonly opensMost: { readonly treeIds: readonly string[]; readonly share: number } | null;
  /** The ground behind the trees, for drawing; null when nothing is hidden. */
  readonly blind: MultiPolygon | null;
}
