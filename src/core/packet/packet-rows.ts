import { howToCutWords } from "../crown/cuts/how-to-cut-words.ts";
import type { Plan } from "../model/plan.ts";
import type { Zone } from "../model/zone.ts";
import { cutsOf } from "./cut-guide.ts";
import { placeText, unique, whatText } from "./packet-words.ts";
import { type ZoneStop, zoneStops } from "./zone-stops.ts";

export type PacketCell = string | number | boolean | null;

/** One visit of a packet as flat members, in the order of {@link PACKET_COLUMNS}; lengths in meters, diameters in centimeters. */
export interface PacketRow {
  readonly lonDeg: number;
  readonly latDeg: number;
  /** Name for waypoints: order number and tree id. */
  readonly label: string;
  readonly note: string;
  readonly cells: readonly PacketCell[];
}

export const PACKET_COLUMNS = [
  "order",
  "visit",
  "tree",
  "species",
  "common_name",
  "place",
  "longitude",
  "latitude",
  "what",
  "where",
  "why",
  "how",
  "dose_pct",
  "limb_min_cm",
  "limb_max_cm",
  "crew",
  "hours",
  "due",
  "overdue",
  "window_start",
  "window_end",
  "season",
  "height_m",
  "crown_base_m",
  "crown_radius_m",
  "lift_to_m",
  "shorten_m",
  "bearing_deg",
  "cautions",
  "open_after",
] as const;

/** The visits of a zone as rows for tables, GIS files and waypoints, in order of work. Throws as {@link zoneStops}. */
export const packetRows = (plan: Plan, zone: Zone): PacketRow[] => rowsOf(zoneStops(plan, zone));

/** The same for stops already found. */
export function rowsOf(stops: readonly ZoneStop[]): PacketRow[] {
  return stops.map((stop) => {
    const { tree, visit, number } = stop;
    return {
      lonDeg: tree.lonDeg,
      latDeg: tree.latDeg,
      label: `${number} ${tree.id}`,
      note: `${whatText(visit.tasks)}. ${placeText(tree)}.`,
      cells: cellsOf(stop),
    };
  });
}

function cellsOf(stop: ZoneStop): PacketCell[] {
  const { tree, visit, prescription, number } = stop;
  const { tasks } = visit;
  const limbs = tasks.flatMap(({ limbDiameterM }) => (limbDiameterM[1] > 0 ? [limbDiameterM] : []));
  const join = (texts: readonly string[]) => unique(texts).join(" ");
  return [
    number,
    visit.visitId,
    tree.id,
    tree.species,
    tree.commonName,
    placeText(tree),
    rounded(tree.lonDeg, 7),
    rounded(tree.latDeg, 7),
    whatText(tasks),
    // Places are parts of sentences, which nothing else would part.
    unique(tasks.map(({ where }) => where)).join("; "),
    join(tasks.map(({ cause }) => cause)),
    join(cutsOf(stop).map(howToCutWords)),
    rounded(visit.doseShare * 100, 1),
    limbs.length === 0 ? null : rounded(Math.min(...limbs.map(([low]) => low)) * 100, 1),
    limbs.length === 0 ? null : rounded(Math.max(...limbs.map(([, high]) => high)) * 100, 1),
    visit.crew,
    rounded(visit.hours, 2),
    visit.due,
    visit.overdue,
    visit.windowStart,
    visit.windowEnd,
    visit.windowReason,
    rounded(tree.height.valueM, 3),
    rounded(tree.crownBase.valueM, 3),
    rounded(tree.radius.valueM, 3),
    liftToM(stop),
    prescription.shortenM === null ? null : rounded(prescription.shortenM, 3),
    prescription.bearingDeg === null ? null : rounded(prescription.bearingDeg, 1),
    unique(prescription.cautions).join(" "),
    visit.openAfter.join("; "),
  ];
}

/** How high this visit takes the lowest branches, meters: of work over several visits only its own part; null where it takes no whole limbs. */
function liftToM({ visit, prescription }: ZoneStop): number | null {
  if (prescription.liftToM === null) return null;
  const heights = visit.tasks.flatMap(({ remedy, belowM }) =>
    (remedy === "lift" || remedy === "remove-limb") && belowM !== null ? [belowM] : [],
  );
  return heights.length === 0 ? null : rounded(Math.max(...heights), 3);
}

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;
