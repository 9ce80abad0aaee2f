import type { PacketContent } from "../../core/packet/packet-content.ts";
import { drawBullet } from "./cover.ts";
import { leading, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const TITLE: TextStyle = { sizeMm: 5.2, weight: "semibold" };
const HEADING: TextStyle = { sizeMm: 3.5, weight: "semibold" };
const BODY: TextStyle = { sizeMm: 3 };

/** The last pages: the cautions that trees share in full, what is ticked off, and the lines to sign. */
export function drawSignOff(sheet: Sheet, content: PacketContent): void {
  const { signOff, cover } = content;
  sheet.newPage();
  sheet.y += sheet.paragraph("Cautions and sign-off", sheet.left, sheet.y, sheet.width, TITLE, "H2") + 3;
  const cautions = [...(cover.notChecked === null ? [] : [cover.notChecked]), ...cover.cautions];
  drawList(sheet, "Standing cautions", signOff.cautions);
  if (cautions.length > 0) drawList(sheet, "This zone", cautions);
  if (signOff.treeCautions.length > 0) drawList(sheet, "Shared by several trees", signOff.treeCautions);
  drawSigning(sheet, signOff.statements, signOff.lines);
}

/** Room for a line to sign: as wide as can be written on, narrower where only that keeps it on the page. */
const LINE_MM: readonly [wide: number, narrow: number] = [13, 9.5];

/** What is ticked off and the lines below it stay on one page. */
function drawSigning(sheet: Sheet, statements: readonly string[], lines: readonly string[]): void {
  const title = "Before you leave";
  const roomMm = sheet.bottom - sheet.y - listHeight(sheet, statements);
  const pitchMm = LINE_MM.find((mm) => lines.length * mm + 2 <= roomMm);
  if (pitchMm === undefined) sheet.newPage();
  drawList(sheet, title, statements);
  for (const line of lines) {
    sheet.y += pitchMm ?? LINE_MM[0];
    sheet.blank(line, sheet.left, sheet.y, sheet.right, BODY);
  }
}

const listHeight = (sheet: Sheet, items: readonly string[]): number =>
  items.reduce((sum, item) => sum + sheet.measure(item, sheet.width - 4, BODY) + 0.8, leading(HEADING) + 5);

function drawList(sheet: Sheet, title: string, items: readonly string[]): void {
  sheet.y += sheet.paragraph(title, sheet.left, sheet.y, sheet.width, HEADING, "H2") + 1;
  for (const item of items) {
    if (sheet.y + sheet.measure(item, sheet.width - 4, BODY) > sheet.bottom) sheet.newPage();
    drawBullet(sheet, sheet.left, sheet.y);
    sheet.y += sheet.paragraph(item, sheet.left + 4, sheet.y, sheet.width - 4, BODY) + 0.8;
  }
  sheet.y += 4;
}
