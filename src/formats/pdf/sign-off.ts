import type { PacketContent } from "../../core/packet/packet-content.ts";
import { drawBullet } from "./cover.ts";
import type { Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const TITLE: TextStyle = { sizeMm: 5.2, weight: "semibold" };
const HEADING: TextStyle = { sizeMm: 3.5, weight: "semibold" };
const BODY: TextStyle = { sizeMm: 3 };

/** The last pages: all cautions in full, what is ticked off, and the lines to sign. */
export function drawSignOff(sheet: Sheet, content: PacketContent): void {
  const { signOff, cover } = content;
  sheet.newPage();
  sheet.y += sheet.paragraph("Cautions and sign-off", sheet.left, sheet.y, sheet.width, TITLE, "H2") + 3;
  const cautions = [...(cover.notChecked === null ? [] : [cover.notChecked]), ...cover.cautions];
  drawList(sheet, "Standing cautions", signOff.cautions);
  if (cautions.length > 0) drawList(sheet, "This zone", cautions);
  if (signOff.treeCautions.length > 0) drawList(sheet, "Its trees", signOff.treeCautions);
  drawList(sheet, "Before you leave", signOff.statements);
  const needed = signOff.lines.length * 13 + 8;
  if (sheet.y + needed > sheet.bottom) sheet.newPage();
  sheet.y += 4;
  for (const line of signOff.lines) {
    sheet.y += 13;
    sheet.blank(line, sheet.left, sheet.y, sheet.right, BODY);
  }
}

function drawList(sheet: Sheet, title: string, items: readonly string[]): void {
  sheet.y += sheet.paragraph(title, sheet.left, sheet.y, sheet.width, HEADING, "H2") + 1;
  for (const item of items) {
    if (sheet.y + sheet.measure(item, sheet.width - 4, BODY) > sheet.bottom) sheet.newPage();
    drawBullet(sheet, sheet.left, sheet.y);
    sheet.y += sheet.paragraph(item, sheet.left + 4, sheet.y, sheet.width - 4, BODY) + 0.8;
  }
  sheet.y += 4;
}
