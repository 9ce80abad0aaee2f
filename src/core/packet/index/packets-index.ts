import type { Plan } from "../../model/plan.ts";
import type { Crew, Urgency, ZoneState } from "../../model/terms.ts";
import type { Closure, Zone } from "../../model/zone.ts";
import type { IsoDate } from "../../units/calendar.ts";
import type { PacketFile } from "../packet-manifest.ts";

/** The files of a zone that a contractor downloads; `sheets` and `phone` are also inside the packet. */
export interface PackedFiles {
  readonly packet: PacketFile;
  readonly sheets: PacketFile;
  readonly phone: PacketFile;
  /** The same in further languages, by BCP 47 tag; absent where there is one language. */
  readonly inLanguage?: Readonly<Record<string, Omit<PackedFiles, "inLanguage">>>;
}

/** One packed zone as the index lists it. */
export interface IndexedZone {
  readonly zoneId: string;
  readonly name: string;
  readonly state: ZoneState;
  readonly crew: Crew;
  readonly hours: number;
  readonly trees: number;
  readonly streets: readonly string[];
  readonly windowStart: IsoDate;
  readonly windowEnd: IsoDate;
  readonly due: IsoDate;
  readonly overdue: boolean;
  readonly urgency: Urgency;
  readonly closure: Closure["kind"];
  readonly files: PackedFiles;
}

/** What contractors find packets by: `packets/index.json`, and the page made of it. */
export interface PacketsIndex {
  readonly format: "boughline-packets";
  readonly version: 1;
  readonly planId: string;
  readonly revision: number;
  readonly asOf: IsoDate;
  readonly standardId: string;
  /** By crew, then in the plan's order. */
  readonly zones: readonly IndexedZone[];
  /** Ids of the plan's zones that have no packet yet. */
  readonly notPacked: readonly string[];
}

const CREW_ORDER: readonly Crew[] = ["ground", "aerial", "line-clearance", "utility"];

/** The index of a plan's packets; `files` by zone id. */
export function packetsIndex(plan: Plan, files: ReadonlyMap<string, PackedFiles>): PacketsIndex {
  const overdueVisits = new Set(
    plan.prescriptions.flatMap(({ visits }) => visits.flatMap(({ visitId, overdue }) => (overdue ? [visitId] : []))),
  );
  const listed = CREW_ORDER.flatMap((crew) => plan.zones.filter((zone) => zone.crew === crew));
  return {
    format: "boughline-packets",
    version: 1,
    planId: plan.planId,
    revision: plan.revision,
    asOf: plan.options.asOf,
    standardId: plan.standardId,
    zones: listed.flatMap((zone) => {
      const packed = files.get(zone.zoneId);
      return packed === undefined ? [] : [indexedZone(zone, packed, overdueVisits)];
    }),
    notPacked: plan.zones.flatMap(({ zoneId }) => (files.has(zoneId) ? [] : [zoneId])),
  };
}

const indexedZone = (zone: Zone, files: PackedFiles, overdueVisits: ReadonlySet<string>): IndexedZone => ({
  zoneId: zone.zoneId,
  name: zone.name,
  state: zone.state,
  crew: zone.crew,
  hours: zone.hours,
  trees: new Set(zone.treeIds).size,
  streets: zone.streets,
  windowStart: zone.windowStart,
  windowEnd: zone.windowEnd,
  due: zone.due,
  overdue: zone.visitIds.some((visitId) => overdueVisits.has(visitId)),
  urgency: zone.urgency,
  closure: zone.closure.kind,
  files,
});
