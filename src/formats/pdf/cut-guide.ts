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
const BODY: TextStyle = { sizeMm: 2.8 };
const COLUMNS = 2;
const GAP_MM = 8;
const CAPTION_MM = 6.6;
const ROW_GAP_MM = 3.5;

/** The cut guide: drawings in two columns, then what not to do, tools and their cleaning. Nothing where no task cuts. */
export function drawCutGuide(sheet: Sheet, content: PacketContent): void {
  const { panels, lists, note } = content.cutGuide;
  if (panels.length === 0) return;
  startPage(sheet, "Cut guide");
  const column = (sheet.width - GAP_MM) / COLUMNS;
  const waiting = [...lists];
  for (let row = 0; row < panels.length; row += COLUMNS) {
    const shown = panels.slice(row, row + COLUMNS);
    const height = CAPTION_MM + Math.max(...shown.map(({ drawing }) => (drawing.heightMm * column) / drawing.widthMm));
    if (sheet.y + height > sheet.bottom) startPage(sheet, "Cut guide, continued");
    shown.forEach((panel, at) => {
      drawPanel(sheet, panel, sheet.left + at * (column + GAP_MM), column);
    });
    if (shown.length < COLUMNS) fillCell(sheet, waiting, sheet.left + column + GAP_MM, column, height);
    sheet.y += height + ROW_GAP_MM;
  }
  sheet.y += sheet.paragraph(note, sheet.left, sheet.y, sheet.width, BODY) + 2.5;
  for (let at = 0; at < waiting.length; at += COLUMNS) {
    const shown = waiting.slice(at, at + COLUMNS);
    const height = Math.max(...shown.map((list) => listHeight(sheet, list, column)));
    if (sheet.y + height > sheet.bottom + 0.01 && sheet.y > sheet.top + 20) startPage(sheet, "Cut guide, continued");
    shown.forEach((list, place) => {
      drawList(sheet, list, sheet.left + place * (column + GAP_MM), sheet.y, column);
    });
    sheet.y += height;
  }
}

function startPage(sheet: Sheet, title: string): void {
  sheet.newPage();
  sheet.y += sheet.paragraph(title, sheet.left, sheet.y, sheet.width, TITLE, "H2") + 2;
}

function drawPanel(sheet: Sheet, { letter, title, drawing }: CutPanel, x: number, width: number): void {
  sheet.rule(x, sheet.y, x + width, sheet.y, 0.35);
  sheet.tag("H2", () => {
    sheet.text.line(letter, x, sheet.y + 4.9, LETTER);
    sheet.text.line(title, x + 5.5, sheet.y + 4.9, CAPTION);
  });
  sheet.figure(drawing, x, sheet.y + CAPTION_MM, width);
}

/** Takes lists off the front of those that wait while they fit into the free cell beside a last, single drawing. */
function fillCell(sheet: Sheet, waiting: List[], x: number, width: number, height: number): void {
  let used = 0;
  sheet.rule(x, sheet.y, x + width, sheet.y, 0.35);
  while (waiting[0] !== undefined && used + listHeight(sheet, waiting[0], width) <= height) {
    used += drawList(sheet, waiting.shift()!, x, sheet.y + 1.2 + used, width);
  }
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
