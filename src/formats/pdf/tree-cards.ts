import type { PacketContent } from "../../core/packet/packet-content.ts";
import { INSET_MM, SECTION_MM, SMALL_SECTION_MM, type TreeCard } from "../../core/packet/tree-card.ts";
import { leading, QUIET_INK, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const ID: TextStyle = { sizeMm: 4.6, weight: "semibold" };
const NAME: TextStyle = { sizeMm: 3.1 };
const LABEL: TextStyle = { sizeMm: 2.5, color: QUIET_INK };
/** Sizes of a card's texts in millimeters: the second where only that lets two cards stand on a page. */
const TEXT_MM: readonly number[] = [2.9, 2.6];
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
    const size = cardSize(sheet, card);
    // Half pages add up to the type area only within rounding.
    if (sheet.y > sheet.top && sheet.y + size.heightMm > sheet.bottom + 0.01) sheet.newPage();
    drawCard(sheet, card, size);
    sheet.y += size.heightMm + GAP_MM;
  }
}

const LEFT_MM = SECTION_MM[0];
const textWidth = (sheet: Sheet): number => sheet.width - LEFT_MM - 4;
const isStacked = (card: TreeCard): boolean => card.sections.length > 1;

/** Height of the sections at the left, or of the texts beside them if that is more. */
function bodyHeight(sheet: Sheet, card: TreeCard, textMm: number): number {
  const left = isStacked(card) ? 2 * SMALL_SECTION_MM[1] + 1 : SECTION_MM[1] + INSET_MM + 1;
  return Math.max(left, textColumn(sheet, card, 0, 0, textMm, false));
}

interface CardSize {
  readonly heightMm: number;
  readonly textMm: number;
}

/** Half the type area, or what texts and further sections need if that is more. */
function cardSize(sheet: Sheet, card: TreeCard): CardSize {
  const half = (sheet.bottom - sheet.top - GAP_MM) / 2;
  const below = card.sections.length > 2 ? SMALL_SECTION_MM[1] + 2 : 0;
  const sizes = TEXT_MM.map((textMm) => ({
    textMm,
    heightMm: Math.max(half, HEAD_MM + bodyHeight(sheet, card, textMm) + below + FILL_MM),
  }));
  return sizes.find(({ heightMm }) => heightMm <= half) ?? sizes[0]!;
}

function drawCard(sheet: Sheet, card: TreeCard, { heightMm, textMm }: CardSize): void {
  const top = sheet.y;
  const bottom = top + heightMm;
  drawHead(sheet, card, top);
  const bodyTop = top + HEAD_MM;
  if (isStacked(card)) drawStacked(sheet, card, bodyTop, textMm);
  else drawSingle(sheet, card, bodyTop);
  textColumn(sheet, card, sheet.left + LEFT_MM + 4, bodyTop, textMm, true);
  drawFills(sheet, card, bottom - FILL_MM);
  sheet.rule(sheet.left, bottom, sheet.right, bottom, 0.35);
}

/** One section over the plan and the facts. */
function drawSingle(sheet: Sheet, card: TreeCard, top: number): void {
  sheet.figure(card.sections[0]!, sheet.left, top);
  const insetTop = top + SECTION_MM[1] + 1;
  sheet.figure(card.inset, sheet.left + 2, insetTop);
  drawFacts(sheet, card, sheet.left + INSET_MM + 8, insetTop + 1, 19);
}

/** Two sections over each other with plan and facts beside them, any further ones in a row below. */
function drawStacked(sheet: Sheet, card: TreeCard, top: number, textMm: number): void {
  const [widthMm, heightMm] = SMALL_SECTION_MM;
  const asideX = sheet.left + widthMm + 6;
  card.sections.slice(0, 2).forEach((section, at) => {
    sheet.figure(section, sheet.left, top + at * (heightMm + 1));
  });
  sheet.figure(card.inset, asideX, top);
  drawFacts(sheet, card, asideX, top + INSET_MM + 3, null);
  card.sections.slice(2).forEach((section, at) => {
    sheet.figure(section, sheet.left + at * (widthMm + 1), top + bodyHeight(sheet, card, textMm) + 2);
  });
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

/** Facts one below the other, each value at an indent behind its label, or on a line of its own where that is null. */
function drawFacts(sheet: Sheet, card: TreeCard, x: number, top: number, indent: number | null): void {
  const step = leading(FACT) + 0.35;
  const pitch = indent === null ? 2 * leading(FACT) + 0.9 : step;
  card.facts.forEach(([label, value], at) => {
    const y = top + at * pitch + FACT.sizeMm;
    sheet.tag("P", () => {
      sheet.text.line(label, x, y, { ...FACT, color: QUIET_INK });
      sheet.text.line(value, x + (indent ?? 0), indent === null ? y + leading(FACT) : y, FACT);
    });
  });
}

/** Labels and texts in two columns, cautions below in bold; answers the height. Measures only, unless told to draw. */
function textColumn(sheet: Sheet, card: TreeCard, x: number, top: number, textMm: number, draws: boolean): number {
  const width = textWidth(sheet);
  const body: TextStyle = { sizeMm: textMm };
  const caution: TextStyle = { sizeMm: textMm - 0.1, weight: "semibold" };
  let y = top;
  const put = (text: string, atX: number, w: number, style: TextStyle) => {
    const shown =
      text.length > MOST_CHARACTERS ? `${text.slice(0, MOST_CHARACTERS)}... (cut: see the table file)` : text;
    return draws ? sheet.paragraph(shown, atX, y, w, style) : sheet.measure(shown, w, style);
  };
  for (const [label, text] of card.texts) {
    if (draws) sheet.paragraph(label, x, y + 0.35, LABEL_MM, LABEL);
    y += put(text, x + LABEL_MM, width - LABEL_MM, body) + 1;
  }
  if (card.cautions.length > 0 || card.alsoSee !== null) {
    y += 0.8;
    const from = y - 0.6;
    for (const text of card.cautions) y += put(text, x + 2.5, width - 2.5, caution) + 0.4;
    if (card.alsoSee !== null) y += put(card.alsoSee, x + 2.5, width - 2.5, FACT);
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
