import type { PacketContent } from "../../core/packet/packet-content.ts";
import type { TreeCard } from "../../core/packet/tree-card.ts";
import { cardBodyMm, drawCardBody } from "./card-body.ts";
import { QUIET_INK, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const ID: TextStyle = { sizeMm: 4.6, weight: "semibold" };
const NAME: TextStyle = { sizeMm: 3.1 };
const FILL: TextStyle = { sizeMm: 2.7 };
/** Sizes of a card's texts in millimeters: the smaller where only that lets two cards stand on a page. */
const TEXT_MM: readonly [large: number, small: number] = [2.9, 2.6];
const HEAD_MM = 12;
const FILL_MM = 21.5;
const FILL_ROW_MM = 6.4;
const GAP_MM = 5;
/** Room for writing that is left over on a page is given to its cards, up to so much each. */
const MOST_SPARE_MM = 20;

interface SizedCard {
  readonly card: TreeCard;
  readonly textMm: number;
  readonly heightMm: number;
}

/** The tree cards in order of work, two a page where they fit, three of trees that stand alone; a card is never split. The first may stand on a page that is begun. */
export function drawTreeCards(sheet: Sheet, content: PacketContent): void {
  const waiting = content.cards.map((card) => sized(sheet, card));
  while (waiting.length > 0) {
    if (sheet.y > sheet.top) {
      sheet.y += GAP_MM;
      sheet.room(waiting[0]!.heightMm);
    }
    const shown = onThisPage(sheet, waiting);
    const used = shown.reduce((sum, { heightMm }) => sum + heightMm + GAP_MM, -GAP_MM);
    // The last page keeps its room for what comes after the cards.
    const spareMm = waiting.length === 0 ? 0 : Math.min(MOST_SPARE_MM, (sheet.bottom - sheet.y - used) / shown.length);
    for (const [at, one] of shown.entries()) {
      if (at > 0) sheet.y += GAP_MM;
      const heightMm = one.heightMm + Math.max(0, spareMm);
      drawCard(sheet, one, heightMm);
      sheet.y += heightMm;
    }
  }
}

/** Takes off the front of the waiting cards those that the page has room for; one at least. */
function onThisPage(sheet: Sheet, waiting: SizedCard[]): SizedCard[] {
  const shown: SizedCard[] = [];
  let y = sheet.y;
  while (waiting[0] !== undefined && (shown.length === 0 || y + waiting[0].heightMm <= sheet.bottom + 0.01)) {
    const one = waiting.shift()!;
    shown.push(one);
    y += one.heightMm + GAP_MM;
  }
  return shown;
}

/** A card with the larger texts where that leaves it a third or half of a page, else with the smaller ones. */
function sized(sheet: Sheet, card: TreeCard): SizedCard {
  const [large, small] = TEXT_MM.map((textMm) => ({
    card,
    textMm,
    heightMm: HEAD_MM + cardBodyMm(sheet, card, textMm) + FILL_MM,
  })) as [SizedCard, SizedCard];
  const partMm = (parts: number): number => (sheet.bottom - sheet.top - (parts - 1) * GAP_MM) / parts;
  for (const mostMm of [partMm(3), partMm(2)]) {
    const fits = [large, small].find(({ heightMm }) => heightMm <= mostMm);
    if (fits !== undefined) return fits;
  }
  return small;
}

function drawCard(sheet: Sheet, { card, textMm }: SizedCard, heightMm: number): void {
  const top = sheet.y;
  const bottom = top + heightMm;
  drawHead(sheet, card, top);
  drawCardBody(sheet, card, top + HEAD_MM, textMm);
  drawFills(sheet, card, top + HEAD_MM + cardBodyMm(sheet, card, textMm), bottom);
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

/** Boxes to tick and the first blank in one row, the middle blanks in the next, the last over the whole width, and further lines to write on down to the bottom. */
function drawFills(sheet: Sheet, card: TreeCard, top: number, bottom: number): void {
  sheet.rule(sheet.left, top + 0.8, sheet.right, top + 0.8, 0.18, QUIET_INK);
  let x = sheet.left;
  for (const word of card.ticks) x = sheet.tick(word, x, top + FILL_ROW_MM, FILL) + 6;
  const [first, ...others] = card.fills;
  const last = others.pop();
  if (first !== undefined) sheet.blank(first, x + 6, top + FILL_ROW_MM, sheet.right, FILL);
  const wide = sheet.width / Math.max(1, others.length);
  others.forEach((word, at) => {
    const from = sheet.left + at * wide;
    sheet.blank(word, from, top + 2 * FILL_ROW_MM, at === others.length - 1 ? sheet.right : from + wide - 4, FILL);
  });
  if (last === undefined) return;
  let y = top + 3 * FILL_ROW_MM;
  sheet.blank(last, sheet.left, y, sheet.right, FILL);
  while (y + FILL_ROW_MM <= bottom - 4) {
    y += FILL_ROW_MM;
    sheet.rule(sheet.left, y + 0.6, sheet.right, y + 0.6);
  }
}
