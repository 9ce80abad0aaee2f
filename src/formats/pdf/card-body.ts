import { INSET_MM, SECTION_MM, SMALL_SECTION_MM, type TreeCard } from "../../core/packet/tree-card.ts";
import { leading, QUIET_INK, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const LABEL: TextStyle = { sizeMm: 2.5, color: QUIET_INK };
const FACT: TextStyle = { sizeMm: 2.6 };
const LABEL_MM = 13;
const GUTTER_MM = 4;
/** Sections in the row over plan, facts and texts, where there are more than two. */
const ROW_OF = 3;
/** Texts longer than this are cut on paper; the table file holds them whole. */
const MOST_CHARACTERS = 700;

/** Height in millimeters of a card's drawings, facts and texts. */
export function cardBodyMm(sheet: Sheet, card: TreeCard, textMm: number): number {
  const { topMm, leftMm, textX } = placesOf(card);
  return topMm + Math.max(leftMm, textColumn(sheet, card, sheet.left + textX, 0, textMm, false));
}

/** Draws them from a top edge down. */
export function drawCardBody(sheet: Sheet, card: TreeCard, top: number, textMm: number): void {
  const { topMm, textX } = placesOf(card);
  const [widthMm, heightMm] = SMALL_SECTION_MM;
  const { sections } = card;
  if (sections.length > 2) {
    sections.slice(0, ROW_OF).forEach((section, at) => {
      sheet.figure(section, sheet.left + at * (widthMm + 1), top);
    });
    drawPlan(sheet, card, top + topMm);
    sections.slice(ROW_OF).forEach((section, at) => {
      sheet.figure(section, sheet.left, top + topMm + INSET_MM + 2 + at * (heightMm + 1));
    });
  } else if (sections.length === 2 || !card.hasPlan) {
    sections.forEach((section, at) => {
      sheet.figure(section, sheet.left, top + at * (heightMm + 1));
    });
    const asideX = sheet.left + widthMm + 6;
    if (card.hasPlan) sheet.figure(card.inset, asideX, top);
    drawFacts(sheet, card, asideX, top + (card.hasPlan ? INSET_MM + 3 : 0), null);
  } else {
    sheet.figure(sections[0]!, sheet.left, top);
    drawPlan(sheet, card, top + SECTION_MM[1] + 1);
  }
  textColumn(sheet, card, sheet.left + textX, top + topMm, textMm, true);
}

/** What stands above the texts, what beside them, and where they begin: one large section, two over each other, one small one without a plan, or a row of three over all else. */
function placesOf({ sections, hasPlan }: TreeCard): {
  readonly topMm: number;
  readonly leftMm: number;
  readonly textX: number;
} {
  const heightMm = SMALL_SECTION_MM[1];
  if (sections.length > 2) {
    const below = sections.length - ROW_OF;
    return { topMm: heightMm + 2, leftMm: INSET_MM + 2 + below * (heightMm + 1), textX: 76 };
  }
  if (!hasPlan) return { topMm: 0, leftMm: heightMm + 1, textX: SECTION_MM[0] + GUTTER_MM };
  const leftMm = sections.length === 2 ? 2 * heightMm + 1 : SECTION_MM[1] + INSET_MM + 1;
  return { topMm: 0, leftMm, textX: SECTION_MM[0] + GUTTER_MM };
}

/** The small plan with the facts beside it. */
function drawPlan(sheet: Sheet, card: TreeCard, top: number): void {
  sheet.figure(card.inset, sheet.left + (card.sections.length > 2 ? 0 : 2), top);
  drawFacts(sheet, card, sheet.left + INSET_MM + (card.sections.length > 2 ? 2 : 8), top, 16);
}

/** Facts one below the other, each value at an indent behind its label, or on a line of its own where that is null. */
function drawFacts(sheet: Sheet, card: TreeCard, x: number, top: number, indent: number | null): void {
  const pitch = indent === null ? 2 * leading(FACT) + 0.9 : leading(FACT) + 0.15;
  card.facts.forEach(([label, value], at) => {
    const y = top + at * pitch + FACT.sizeMm;
    sheet.tag("P", () => {
      sheet.text.line(label, x, y, { ...FACT, color: QUIET_INK });
      sheet.text.line(value, x + (indent ?? 0), indent === null ? y + leading(FACT) : y, FACT);
    });
  });
}

/** Labels and texts in two columns, cautions below in bold, notes under them; answers the height. Measures only, unless told to draw. */
function textColumn(sheet: Sheet, card: TreeCard, x: number, top: number, textMm: number, draws: boolean): number {
  const width = sheet.right - x;
  const body: TextStyle = { sizeMm: textMm };
  const small: TextStyle = { sizeMm: textMm - 0.1 };
  let y = top;
  const put = (text: string, atX: number, w: number, style: TextStyle) => {
    const shown =
      text.length > MOST_CHARACTERS ? `${text.slice(0, MOST_CHARACTERS)}... (cut: see the table file)` : text;
    return draws ? sheet.paragraph(shown, atX, y, w, style) : sheet.measure(shown, w, style);
  };
  for (const [label, text] of card.texts) {
    if (draws) sheet.paragraph(label, x, y + 0.35, LABEL_MM, LABEL);
    y += put(text, x + LABEL_MM, width - LABEL_MM, body) + 0.8;
  }
  const { cautions, notes, alsoSee } = card;
  if (cautions.length + notes.length > 0 || alsoSee !== null) {
    y += 0.6;
    const from = y - 0.4;
    for (const text of cautions) y += put(text, x + 2.5, width - 2.5, { ...small, weight: "semibold" }) + 0.4;
    for (const text of notes) y += put(text, x + 2.5, width - 2.5, small) + 0.4;
    if (alsoSee !== null) y += put(alsoSee, x + 2.5, width - 2.5, FACT);
    const to = y;
    if (draws) sheet.rule(x + 0.4, from, x + 0.4, to, 0.8);
  }
  return y - top;
}
