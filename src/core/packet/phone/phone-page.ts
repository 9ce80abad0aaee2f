import type { Drawing } from "../../crown/drawing.ts";
import { drawSection } from "../../crown/section-drawing.ts";
import type { Plan } from "../../model/plan.ts";
import type { Remedy, Urgency } from "../../model/terms.ts";
import type { Zone } from "../../model/zone.ts";
import type { IsoDate } from "../../units/calendar.ts";
import type { DisplayUnits } from "../../units/format-length.ts";
import type { CoverPage } from "../cover-page.ts";
import type { CutGuide } from "../cut-guide.ts";
import type { PacketContent } from "../packet-content.ts";
import { unique } from "../packet-words.ts";
import type { TrafficPage } from "../traffic/traffic-page.ts";
import { seasonText, sectionSubjects } from "../tree-card.ts";
import type { ZoneStop } from "../zone-stops.ts";
import { howFar } from "./how-far.ts";
import { type PhoneMap, phoneMap } from "./phone-map.ts";

/** All that the phone page of one zone shows: the packet's own content, and a map drawn from numbers. Plain data, JSON as it stands. */
export interface PhonePage {
  /** Language of its texts, as a BCP 47 tag; the page's own words follow it. */
  readonly language: string;
  /** A round that only looks and measures; absent for work. */
  readonly isInspection?: boolean;
  readonly planId: string;
  readonly revision: number;
  readonly asOf: IsoDate;
  readonly zoneId: string;
  readonly zoneName: string;
  readonly subtitle: string;
  /** Units in which lengths are shown and in which a bare number that is typed in is read. */
  readonly units: DisplayUnits;
  readonly due: IsoDate;
  readonly windowStart: IsoDate;
  readonly windowEnd: IsoDate;
  readonly figures: CoverPage["figures"];
  /** Cautions of the zone, then those that hold in every packet. */
  readonly cautions: readonly string[];
  /** Cautions that hold for each of its trees. */
  readonly sharedCautions: readonly string[];
  readonly traffic: Pick<TrafficPage, "title" | "road" | "note" | "facts" | "assumptions"> & {
    readonly sketch: Drawing | null;
  };
  readonly equipment: readonly string[];
  /** Where help is sent: place and coordinates of the first tree. */
  readonly location: string;
  /** Labels of lines that the crew fills in. */
  readonly emergency: readonly string[];
  readonly notChecked: string | null;
  readonly cutGuide: CutGuide;
  readonly map: PhoneMap;
  /** In order of work. */
  readonly stops: readonly PhoneStop[];
}

/** One visit as the phone page shows it. */
export interface PhoneStop {
  readonly visitId: string;
  readonly treeId: string;
  /** Place in the order of work, from 1. */
  readonly number: number;
  readonly name: string;
  readonly place: string;
  readonly what: string;
  /** Share of live crown this visit takes, in words, and as planned from 0 to 1. */
  readonly dose: string;
  readonly doseShare: number;
  readonly notes: string;
  readonly crew: string;
  readonly due: string;
  readonly overdue: boolean;
  readonly urgency: Urgency;
  readonly remedy: Remedy;
  readonly facts: readonly (readonly [label: string, value: string])[];
  readonly texts: readonly (readonly [label: string, text: string])[];
  /** Cautions of this tree that not every tree of the zone has, in full. */
  readonly cautions: readonly string[];
  readonly sections: readonly Drawing[];
  readonly inset: Drawing;
  readonly heightM: number;
}

/** Size of a section in millimeters: shown as wide as a phone, its smallest letters are 12 px high and more. */
const SECTION_MM: readonly [widthMm: number, heightMm: number] = [66, 54];

/** The phone page's content for a zone; `content` and `stops` are the zone's own. */
export function phonePage(
  plan: Plan,
  zone: Zone,
  content: PacketContent,
  stops: readonly ZoneStop[],
  isInspection = false,
): PhonePage {
  const { cover, cautionPage, traffic, cards, order } = content;
  const shared = sharedBy(stops);
  return {
    language: "en",
    ...(isInspection ? { isInspection } : {}),
    planId: plan.planId,
    revision: plan.revision,
    asOf: plan.options.asOf,
    zoneId: zone.zoneId,
    zoneName: zone.name,
    subtitle: cover.subtitle,
    units: plan.options.units,
    due: zone.due,
    windowStart: zone.windowStart,
    windowEnd: zone.windowEnd,
    figures: cover.figures,
    cautions: [...cover.cautions, ...cautionPage.standing],
    sharedCautions: shared,
    traffic: {
      title: traffic.title,
      road: traffic.road,
      note: traffic.note,
      facts: traffic.facts,
      assumptions: traffic.assumptions,
      sketch: traffic.narrowSketch,
    },
    equipment: cautionPage.equipment,
    location: cover.location,
    emergency: cover.emergency,
    notChecked: cover.notChecked,
    cutGuide: content.cutGuide,
    map: phoneMap(plan, zone, stops),
    stops: stops.map((stop, at): PhoneStop => {
      const { tree, visit, prescription, number } = stop;
      const card = cards[at]!;
      const row = order[at]!;
      return {
        visitId: visit.visitId,
        treeId: tree.id,
        number,
        name: card.name,
        place: card.place,
        what: row.what,
        dose: row.dose,
        doseShare: visit.doseShare,
        notes: row.notes,
        crew: card.crew,
        due: card.due,
        overdue: visit.overdue,
        urgency: visit.urgency,
        remedy: visit.tasks[0]?.remedy ?? prescription.remedy,
        facts: card.facts,
        texts: isInspection ? card.texts : withHowFar(wholeSeason(card.texts, stop), howFar(stop)),
        cautions: unique(prescription.cautions).filter((caution) => !shared.includes(caution)),
        sections: sectionSubjects(plan, stop).map((subject) =>
          drawSection(subject, { units: stop.units, widthMm: SECTION_MM[0], heightMm: SECTION_MM[1] }),
        ),
        inset: card.inset,
        heightM: tree.height.valueM,
      };
    }),
  };
}

/** Cautions that every tree of a zone has, in order; none for a zone of one tree, whose sheet holds them all. */
function sharedBy(stops: readonly ZoneStop[]): string[] {
  const [first, ...others] = stops;
  if (first === undefined || others.length === 0) return [];
  return unique(first.prescription.cautions).filter((caution) =>
    others.every(({ prescription }) => prescription.cautions.includes(caution)),
  );
}

/** How far to cut stands after where. */
function withHowFar(texts: PhoneStop["texts"], far: string): PhoneStop["texts"] {
  if (far === "") return texts;
  const at = texts.findIndex(([label]) => label === "Where") + 1;
  return [...texts.slice(0, at), ["How far", far], ...texts.slice(at)];
}

/** On paper a season's reason may stand on another page; here each tree says its own. */
const wholeSeason = (texts: PhoneStop["texts"], stop: ZoneStop): PhoneStop["texts"] =>
  texts.map(([label, text]) => [label, label === "Season" ? seasonText(stop, stop.visit.windowReason) : text]);
