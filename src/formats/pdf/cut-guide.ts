import type { CutGuide, CutPanel } from "../../core/packet/cut-guide.ts";
import type { PacketContent } from "../../core/packet/packet-content.ts";
import { drawBullet } from "./cover.ts";
import { leading, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

type List = CutGuide["lists"][number];

const TITLE: TextStyle = { sizeMm: 5.2, weight: "semibold" };
const LETTER: TextStyle = { sizeMm: 4.2, weight: "semibold" };
const CAPTION: TextStyle = { sizeMm: 3.3, weight: "semibold" };
const HEADING: TextStyle = { sizeMm: 3.3, weight: "semibold" };
const BODY: TextStyle = { sizeMm: 2.7 };
const COLUMNS = 2;
const GAP_MM = 8;
const CAPTION_MM = 6.6;
const ABOVE_MM = 7;
const ROW_GAP_MM = 3.5;

/** Shares of a column that its drawings take: less than all where only that leaves room for what follows on the same page. */
const SCALES = [1, 0.85, 0.72];

/**
 * The cut guide: drawings in two columns, then what not to do, tools and their cleaning. Nothing where no task cuts. `belowMm` is the height of
 * what follows, which the guide leaves room for where it can.
 */
export function drawCutGuide(sheet: Sheet, content: PacketContent, belowMm: number): void {
  const { panels, lists, note } = content.cutGuide;
  if (panels.length === 0) return;
  const column = (sheet.width - GAP_MM) / COLUMNS;
  if (sheet.y > sheet.top) sheet.y += ABOVE_MM;
  const pageMm = sheet.bottom - sheet.top;
  const roomMm = sheet.bottom - sheet.y;
  const drawnMm = (scale: number): number => drawingsMm(sheet, content, scale);
  const restMm = textsMm(sheet, content) + belowMm;
  const fits = (heightMm: (scale: number) => number, mostMm: number): number | undefined =>
    SCALES.find((scale) => heightMm(scale) <= mostMm);
  const whole = (scale: number): number => drawnMm(scale) + restMm;
  const here = fits(whole, roomMm) ?? fits(drawnMm, roomMm);
  // Else on a page of its own, else its first rows here if then the rest fits on the next page.
  const own = fits(whole, pageMm);
  const begun =
    own === undefined
      ? fits((one) => drawnMm(one) - rowsInMm(sheet, content, one, roomMm) + restMm, pageMm)
      : undefined;
  const isBegun = begun !== undefined && rowsInMm(sheet, content, begun, roomMm) > 0;
  const scale = here ?? own ?? begun ?? 1;
  if (here === undefined && !isBegun) sheet.room(Math.min(pageMm, drawnMm(scale)));
  drawTitle(sheet, sheet.say("Cut guide"));
  for (let row = 0; row < panels.length; row += COLUMNS) {
    const shown = panels.slice(row, row + COLUMNS);
    const height = rowMm(sheet, shown, scale);
    if (sheet.room(height)) drawTitle(sheet, sheet.say("Cut guide, continued"));
    shown.forEach((panel, at) => {
      drawPanel(sheet, panel, sheet.left + at * (column + GAP_MM), column, scale);
    });
    sheet.y += height + ROW_GAP_MM;
  }
  const columns = inColumns(sheet, lists);
  const listsMm = Math.max(...columns.map((one) => columnMm(sheet, one)));
  // What comes last is not left alone on a page.
  if (sheet.room(restMm <= pageMm ? restMm : listsMm)) drawTitle(sheet, sheet.say("Cut guide, continued"));
  columns.forEach((one, at) => {
    let y = sheet.y;
    for (const list of one) y += drawList(sheet, list, sheet.left + at * (column + GAP_MM), y, column);
  });
  sheet.y += listsMm;
  sheet.y += sheet.paragraph(note, sheet.left, sheet.y, sheet.width, BODY);
}

/** Height of the title with the drawings on one page. */
function drawingsMm(sheet: Sheet, { cutGuide: { panels } }: PacketContent, scale: number): number {
  let height = leading(TITLE) + 2;
  for (let row = 0; row < panels.length; row += COLUMNS) {
    height += rowMm(sheet, panels.slice(row, row + COLUMNS), scale) + ROW_GAP_MM;
  }
  return height;
}

/** Height of the rows that find room below the title within a height. */
function rowsInMm(sheet: Sheet, { cutGuide: { panels } }: PacketContent, scale: number, roomMm: number): number {
  let height = 0;
  for (let row = 0; row < panels.length; row += COLUMNS) {
    const next = rowMm(sheet, panels.slice(row, row + COLUMNS), scale);
    if (leading(TITLE) + 2 + height + next > roomMm) break;
    height += next + ROW_GAP_MM;
  }
  return height;
}

/** Height of lists and note. */
const textsMm = (sheet: Sheet, { cutGuide: { lists, note } }: PacketContent): number =>
  sheet.measure(note, sheet.width, BODY) + Math.max(...inColumns(sheet, lists).map((one) => columnMm(sheet, one)));

const widthMm = (sheet: Sheet): number => (sheet.width - GAP_MM) / COLUMNS;

const rowMm = (sheet: Sheet, shown: readonly CutPanel[], scale: number): number =>
  CAPTION_MM + Math.max(...shown.map(({ drawing }) => (drawing.heightMm * widthMm(sheet) * scale) / drawing.widthMm));

const columnMm = (sheet: Sheet, lists: readonly List[]): number =>
  lists.reduce((sum, list) => sum + listHeight(sheet, list, widthMm(sheet)), 0);

/** Each list under the shorter column so far. */
function inColumns(sheet: Sheet, lists: readonly List[]): readonly List[][] {
  const columns: List[][] = [[], []];
  for (const list of lists) {
    const [left, right] = columns as [List[], List[]];
    (columnMm(sheet, left) <= columnMm(sheet, right) ? left : right).push(list);
  }
  return columns;
}

function drawTitle(sheet: Sheet, title: string): void {
  sheet.y += sheet.paragraph(title, sheet.left, sheet.y, sheet.width, TITLE, "H2") + 2;
}

function drawPanel(sheet: Sheet, { letter, title, drawing }: CutPanel, x: number, width: number, scale: number): void {
  sheet.rule(x, sheet.y, x + width, sheet.y, 0.35);
  sheet.tag("H2", () => {
    sheet.text.line(letter, x, sheet.y + 4.9, LETTER);
    sheet.text.line(title, x + 5.5, sheet.y + 4.9, CAPTION);
  });
  sheet.figure(drawing, x, sheet.y + CAPTION_MM, width * scale);
}

const listHeight = (sheet: Sheet, { lines }: List, width: number): number =>
  lines.reduce((sum, line) => sum + sheet.measure(line, width - 4, BODY) + 0.5, leading(HEADING) + 2.6);

function drawList(sheet: Sheet, list: List, x: number, top: number, width: number): number {
  let y = top + sheet.paragraph(list.title, x, top, width, HEADING, "H2") + 0.6;
  for (const line of list.lines) {
    drawBullet(sheet, x, y);
    y += sheet.paragraph(line, x + 4, y, width - 4, BODY) + 0.5;
  }
  return listHeight(sheet, list, width);
}
