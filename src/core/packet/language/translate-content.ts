import type { Drawing } from "../../crown/drawing.ts";
import type { Translator } from "../../language/translator.ts";
import type { CutGuide } from "../cut-guide.ts";
import type { PacketContent } from "../packet-content.ts";
import type { TreeCard } from "../tree-card.ts";

type Pairs = readonly (readonly [string, string])[];

/** A packet's content in another language: the same figures, names and drawings with other words. Ids, names of zones and streets and species stay. */
export function translateContent(content: PacketContent, translator: Translator): PacketContent {
  const { language, notice, text, nameOr, label } = translator;
  const texts = (all: readonly string[]): string[] => all.map(text);
  const { cover, traffic, cautionPage, signOff } = content;
  return {
    ...content,
    language,
    footer: text(content.footer),
    cover: {
      ...cover,
      subtitle: nameOr(cover.subtitle),
      figures: cover.figures.map(([label, value]) => [text(label), nameOr(value)]),
      map: translateDrawing(cover.map, text, nameOr),
      cautions: [...texts(cover.cautions), notice],
      location: text(cover.location),
      emergency: texts(cover.emergency),
      notChecked: cover.notChecked === null ? null : text(cover.notChecked),
    },
    order: content.order.map((row) => ({
      ...row,
      species: nameOr(row.species),
      place: nameOr(row.place),
      what: text(row.what),
      dose: text(row.dose),
      notes: text(row.notes),
    })),
    traffic: {
      ...traffic,
      title: text(traffic.title),
      road: traffic.road === null ? null : nameOr(traffic.road),
      note: text(traffic.note),
      sketch: traffic.sketch === null ? null : translateDrawing(traffic.sketch, text, label),
      narrowSketch: traffic.narrowSketch === null ? null : translateDrawing(traffic.narrowSketch, text, label),
      facts: translatePairs(traffic.facts, text),
      assumptions: texts(traffic.assumptions),
    },
    cautionPage: {
      standing: [notice, ...texts(cautionPage.standing)],
      equipment: texts(cautionPage.equipment),
      shared: texts(cautionPage.shared),
      seasons: texts(cautionPage.seasons),
    },
    cards: content.cards.map((card) => translateCard(card, translator)),
    cutGuide: translateCutGuide(content.cutGuide, translator),
    signOff: { statements: texts(signOff.statements), lines: texts(signOff.lines) },
  };
}

type Say = (text: string) => string;

function translateCard(card: TreeCard, { text, nameOr, label }: Translator): TreeCard {
  return {
    ...card,
    name: nameOr(card.name),
    place: nameOr(card.place),
    crew: text(card.crew),
    due: text(card.due),
    sections: card.sections.map((drawing) => translateDrawing(drawing, text, label)),
    inset: translateDrawing(card.inset, text, label),
    facts: translatePairs(card.facts, text),
    texts: translatePairs(card.texts, text),
    cautions: card.cautions.map(text),
    notes: card.notes.map(text),
    alsoSee: card.alsoSee === null ? null : text(card.alsoSee),
    ticks: card.ticks.map(text),
    fills: card.fills.map(text),
  };
}

export const translatePairs = (pairs: Pairs, text: Say): [string, string][] =>
  pairs.map(([label, value]) => [text(label), text(value)]);

export const translateCutGuide = (guide: CutGuide, { text, label }: Translator): CutGuide => ({
  panels: guide.panels.map((panel) => ({
    ...panel,
    title: text(panel.title),
    drawing: translateDrawing(panel.drawing, text, label),
  })),
  lists: guide.lists.map(({ title, lines }) => ({ title: text(title), lines: lines.map(text) })),
  note: text(guide.note),
});

/** A drawing with its labels and its description in another language; labels of a map are names. */
export const translateDrawing = (drawing: Drawing, text: Say, label: Say): Drawing => ({
  ...drawing,
  description: text(drawing.description),
  shapes: drawing.shapes.map((shape) => (shape.type === "text" ? { ...shape, text: label(shape.text) } : shape)),
});
