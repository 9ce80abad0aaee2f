import type { PacketContent } from "./packet-content.ts";
import { unique } from "./packet-words.ts";
import type { TreeCard } from "./tree-card.ts";
import type { ZoneStop } from "./zone-stops.ts";

/** What stands instead of the work on a round that only looks. */
export const LOOK_WORDS = "Look and measure; nothing is cut";

/**
 * A packet's content for an inspection round: the same pages without cuts. Each card says what to measure, where, and which figure settles it which way; there is no
 * dose, no cut guide and nothing to tell anybody beforehand.
 */
export function inspectionContent(content: PacketContent, stops: readonly ZoneStop[]): PacketContent {
  return {
    ...content,
    cover: {
      ...content.cover,
      figures: content.cover.figures.map(([label, value]) =>
        label === "Crew" ? (["Crew", "One person, on foot"] as const) : ([label, value] as const),
      ),
      cautions: content.cover.cautions.filter((text) => !BEFORE_WORK.test(text)),
    },
    order: content.order.map((row) => ({ ...row, what: LOOK_WORDS, dose: "none" })),
    cards: content.cards.map((card, at) => lookCard(card, stops[at]!)),
    cutGuide: { panels: [], lists: [], note: "" },
    signOff: {
      statements: [
        "Every tree of the list is looked at, or marked as not reached with a reason.",
        "What was measured is written down with its unit.",
        "Trees and hazards that the list does not have are written down below.",
      ],
      lines: ["Inspector", "Date and hours", "Hazards and trees that the list does not have"],
    },
  };
}

/** Lines of the cover about notices before work. */
const BEFORE_WORK = /^(By \d|No day is planned)/;

function lookCard(card: TreeCard, { visit, prescription }: ZoneStop): TreeCard {
  const { tasks } = visit;
  const settles = unique(tasks.map(({ how }) => how)).join(" ");
  const texts: (readonly [string, string])[] = [
    ["What", `${LOOK_WORDS}.`],
    ["Measure", unique(tasks.map(({ where }) => where)).join(" ")],
    ["Settles it", settles],
    ["Why", unique(tasks.map(({ cause }) => cause)).join(" ")],
  ];
  return {
    ...card,
    crew: "one person",
    texts: texts.filter(([, text]) => text !== ""),
    cautions: card.cautions,
    notes: prescription.refer === null ? card.notes : unique([...card.notes, "Referred: a licensed arborist decides."]),
    alsoSee: null,
    ticks: ["looked at", "not reached"],
    fills: ["date", "height", "crown base", "mean crown radius", "free height", "conflict yes / no", "notes"],
  };
}
