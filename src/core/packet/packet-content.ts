import type { Drawing } from "../crown/drawing.ts";
import type { Plan } from "../model/plan.ts";
import type { Zone } from "../model/zone.ts";
import { acceptanceSize } from "../standard/acceptance-size.ts";
import type { Standard } from "../standard/standard.ts";
import { formatDate } from "../units/format-date.ts";
import { type CautionPage, cautionPage } from "./caution-page.ts";
import { zoneCautions } from "./cautions.ts";
import { type CoverPage, coverPage } from "./cover-page.ts";
import { type CutGuide, cutGuide } from "./cut-guide.ts";
import { type OrderRow, orderRow } from "./order-row.ts";
import { seasonNotes } from "./season-notes.ts";
import { type TrafficPage, trafficPage } from "./traffic/traffic-page.ts";
import { type TreeCard, treeCard } from "./tree-card.ts";
import { zoneStops } from "./zone-stops.ts";

/** A packet's pages as data, in reading order; the PDF and the phone page draw the same content. */
export interface PacketContent {
  /** Language of its texts, as a BCP 47 tag. */
  readonly language: string;
  readonly planId: string;
  readonly revision: number;
  readonly zoneId: string;
  readonly title: string;
  /** Stands at the foot of every page, before the page number. */
  readonly footer: string;
  readonly cover: CoverPage;
  readonly order: readonly OrderRow[];
  readonly traffic: TrafficPage;
  readonly cautionPage: CautionPage;
  readonly cards: readonly TreeCard[];
  readonly cutGuide: CutGuide;
  readonly signOff: SignOff;
}

/** The last page: what the crew signs. Every line is left blank to be filled in by hand. */
export interface SignOff {
  readonly statements: readonly string[];
  readonly lines: readonly string[];
}

/**
 * The content of a zone's packet: cover with map, order of work, traffic control, cautions, one card a tree, cut guide, sign-off. Holds nothing of other zones and no column
 * that is not mapped. Throws RangeError for a zone that names a visit the plan does not have.
 */
export function packetContent(plan: Plan, zone: Zone, standard: Standard): PacketContent {
  const stops = zoneStops(plan, zone);
  const cautions = zoneCautions(stops);
  const seasons = seasonNotes(stops);
  return {
    language: "en",
    planId: plan.planId,
    revision: plan.revision,
    zoneId: zone.zoneId,
    title: zone.name,
    footer: `${zone.name} (${zone.zoneId})  ·  plan ${plan.planId}, revision ${plan.revision}, as of ${formatDate(plan.options.asOf)}`,
    cover: coverPage(plan, zone, stops, standard),
    order: stops.map((stop) => orderRow(stop)),
    traffic: trafficPage(zone.closure, plan.options.units, plan.options.drive),
    cautionPage: cautionPage(zone, stops, cautions, seasons),
    cards: stops.map((stop) => treeCard(plan, stop, cautions, seasons, standard.notices)),
    cutGuide: cutGuide(stops),
    signOff: {
      statements: [
        "Every tree of the order of work is marked done, partly done or not done on its card, with a reason where it is not done.",
        "Limbs, tools and traffic devices are removed; the way is open again.",
        "New hazards and trees that need another look are written down below.",
        acceptanceLine(new Set(zone.treeIds).size, standard),
      ],
      lines: [
        "Crew leader",
        "Date and hours",
        "New hazards, trees to look at again",
        "Accepted for the city or utility by",
      ],
    },
  };
}

/** How many trees are checked after the work; which ones is drawn by lot then. */
function acceptanceLine(trees: number, { acceptance }: Standard): string {
  const checked = acceptanceSize(trees, acceptance);
  return checked >= trees
    ? "Every tree is checked before the work is accepted."
    : `${checked} of these ${trees} trees, drawn by lot when the work is done, are checked before it is accepted.`;
}

/** Drawings of a content in page order, for checks and counts. */
export const drawingsOf = (content: PacketContent): Drawing[] => [
  content.cover.map,
  ...(content.traffic.sketch === null ? [] : [content.traffic.sketch]),
  ...content.cards.flatMap((card) => [...card.sections, card.inset]),
  ...content.cutGuide.panels.map(({ drawing }) => drawing),
];
