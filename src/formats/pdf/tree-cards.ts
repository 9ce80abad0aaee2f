import type { Drawing } from "../../core/crown/drawing.ts";
import type { PacketContent } from "../../core/packet/packet-content.ts";
import { INSET_MM, MORE_SECTION_MM, SECTION_MM, type TreeCard } from "../../core/packet/tree-card.ts";
import { leading, QUIET_INK, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const ID: TextStyle = { sizeMm: 4.6, weight: "semibold" };
const NAME: TextStyle = { sizeMm: 3.1 };
const LABEL: TextStyle = { sizeMm: 2.5, color: QUIET_INK };
const BODY: TextStyle = { sizeMm: 2.9 };
const CAUTION: TextStyle = { sizeMm: 2.9, weight: "semibold" };
const FACT: TextStyle = { sizeMm: 2.6 };
const FILL: TextStyle = { sizeMm: 2.7 };

const HEAD_MM = 12;
const FILL_MM = 21.5;
const GAP_MM = 5;
const LABEL_MM = 13;
/** Texts longer than this are cut on paper; the table file holds them whole. */
const MOST_CHARACTERS = 700;

/** The tree cards, two a page where they fit, in order of work; a card is never split. */
export function drawTreeCards(sheet: Sheet, content: PacketContent): void {
  sheet.newPage();
  for (const card of content.cards) {
    const height = cardHeight(sheet, card);
    if (sheet.y > sheet.top && sheet.y + height > sheet.bottom) sheet.newPage();
    drawCard(sheet, card, height);
    sheet.y += height + GAP_MM;
  }
}

/** How a card's body is laid out: heights of its parts, and which further sections find room below the texts. */
interface Body {
  readonly heightMm: number;
  readonly besideTexts: readonly Drawing[];
  readonly below: readonly Drawing[];
}

function bodyOf(sheet: Sheet, card: TreeCard): Body {
  const texts = textColumn(sheet, card, 0, 0, textWidth(sheet), false);
  const heightMm = Math.max(SECTION_MM[1] + INSET_MM + 1, texts);
  const more = card.sections.slice(1);
  const hasRoom = more.length > 0 && texts + 2 + MORE_SECTION_MM[1] <= heightMm;
  return { heightMm, besideTexts: hasRoom ? more.slice(0, 1) : [], below: hasRoom ? more.slice(1) : more };
}

/** Half the type area, or what the texts and further sections need if that is more. */
function cardHeight(sheet: Sheet, card: TreeCard): number {
  const half = (sheet.bottom - sheet.top - GAP_MM) / 2;
  const { heightMm, below } = bodyOf(sheet, card);
  return Math.max(half, HEAD_MM + heightMm + (below.length > 0 ? MORE_SECTION_MM[1] + 2 : 0) + FILL_MM);
}

const textWidth = (sheet: Sheet): number => sheet.width - SECTION_MM[0] - 4;

function drawCard(sheet: Sheet, card: TreeCard, height: number): void {
  const top = sheet.y;
  const bottom = top + height;
  drawHead(sheet, card, top);
  const bodyTop = top + HEAD_MM;
  const { heightMm, besideTexts, below } = bodyOf(sheet, card);
  const textX = sheet.left + SECTION_MM[0] + 4;
  sheet.figure(card.sections[0]!, sheet.left, bodyTop);
  const insetTop = bodyTop + SECTION_MM[1] + 1;
  sheet.figure(card.inset, sheet.left + 2, insetTop);
  drawFacts(sheet, card, sheet.left + INSET_MM + 8, insetTop + 1);
  textColumn(sheet, card, textX, bodyTop, textWidth(sheet), true);
  for (const section of besideTexts) sheet.figure(section, textX + LABEL_MM, bodyTop + heightMm - MORE_SECTION_MM[1]);
  below.forEach((section, at) => {
    sheet.figure(section, sheet.left + at * (MORE_SECTION_MM[0] + 1), bodyTop + heightMm + 2);
  });
  drawFills(sheet, card, bottom - FILL_MM);
  sheet.rule(sheet.left, bottom, sheet.right, bottom, 0.35);
}

function drawHead(sheet: Sheet, card: TreeCard, top: number): void {
  sheet.rule(sheet.left, top, sheet.right, top, 0.5);
  const discY = top + 5.6;
  sheet.tag("P", () => {
    sheet.doc
      .circle(sheet.left + 4, discY, 3.7)
      .lineWidth(0.35)
      .strokeColor("#000000")
      .stroke();
    const sizeMm = card.number > 99 ? 3 : 4;
    sheet.text.line(
      String(card.number),
      sheet.left + 4,
      discY + sizeMm * 0.34,
      { sizeMm, weight: "semibold" },
      "middle",
    );
  });
  const x = sheet.left + 10;
  const rightWidth = Math.max(sheet.text.width(card.crew, NAME), sheet.text.width(card.due, NAME));
  const room = sheet.width - 10 - rightWidth - 4;
  const idWidth = Math.min(sheet.text.width(card.treeId, ID), room * 0.6);
  sheet.tag("H2", () => sheet.text.line(firstLine(sheet, card.treeId, room * 0.6, ID), x, top + 5.2, ID));
  sheet.tag("P", () => {
    sheet.text.line(firstLine(sheet, card.name, room - idWidth - 3, NAME), x + idWidth + 3, top + 5.2, NAME);
    sheet.text.line(firstLine(sheet, card.place, room, NAME), x, top + 9.6, NAME);
  });
  sheet.tag("P", () => {
    sheet.text.line(card.crew, sheet.right, top + 5.2, { ...NAME, weight: "semibold" }, "end");
    sheet.text.line(card.due, sheet.right, top + 9.6, NAME, "end");
  });
}

/** A text's first line with dots behind it where it had more. */
function firstLine(sheet: Sheet, text: string, width: number, style: TextStyle): string {
  const [first, ...more] = sheet.text.wrap(text, width, style);
  return more.length === 0 ? first! : `${sheet.text.wrap(text, width - 3, style)[0]!}...`;
}

function drawFacts(sheet: Sheet, card: TreeCard, x: number, top: number): void {
  const step = leading(FACT) + 0.35;
  card.facts.forEach(([label, value], at) => {
    const y = top + at * step + FACT.sizeMm;
    sheet.tag("P", () => {
      sheet.text.line(label, x, y, { ...FACT, color: QUIET_INK });
      sheet.text.line(value, x + 19, y, FACT);
    });
  });
}

/** Labels and texts in two columns, cautions below in bold; answers the height. Measures only, unless told to draw. */
function textColumn(sheet: Sheet, card: TreeCard, x: number, top: number, width: number, draws: boolean): number {
  let y = top;
  const put = (text: string, atX: number, w: number, style: TextStyle) => {
    const shown =
      text.length > MOST_CHARACTERS ? `${text.slice(0, MOST_CHARACTERS)}... (cut: see the table file)` : text;
    return draws ? sheet.paragraph(shown, atX, y, w, style) : sheet.measure(shown, w, style);
  };
  for (const [label, text] of card.texts) {
    if (draws) sheet.paragraph(label, x, y + 0.35, LABEL_MM, LABEL);
    y += put(text, x + LABEL_MM, width - LABEL_MM, BODY) + 1;
  }
  if (card.cautions.length > 0) {
    y += 0.8;
    const from = y - 0.6;
    for (const caution of card.cautions) y += put(caution, x + 2.5, width - 2.5, CAUTION) + 0.4;
    const to = y;
    if (draws) sheet.rule(x + 0.4, from, x + 0.4, to, 0.8);
  }
  return y - top;
}

/** Boxes to tick and the first blank in one row, the middle blanks in the next, the last over the whole width. */
function drawFills(sheet: Sheet, card: TreeCard, top: number): void {
  sheet.rule(sheet.left, top + 0.8, sheet.right, top + 0.8, 0.18, QUIET_INK);
  const rowMm = 6.4;
  let x = sheet.left;
  for (const word of card.ticks) x = sheet.tick(word, x, top + rowMm, FILL) + 6;
  const [first, ...others] = card.fills;
  const last = others.pop();
  if (first !== undefined) sheet.blank(first, x + 6, top + rowMm, sheet.right, FILL);
  const wide = sheet.width / Math.max(1, others.length);
  others.forEach((word, at) => {
    const from = sheet.left + at * wide;
    sheet.blank(word, from, top + 2 * rowMm, at === others.length - 1 ? sheet.right : from + wide - 4, FILL);
  });
  if (last !== undefined) sheet.blank(last, sheet.left, top + 3 * rowMm, sheet.right, FILL);
}
