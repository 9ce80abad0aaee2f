import type { CautionPage } from "../../core/packet/caution-page.ts";
import { drawBullet } from "./cover.ts";
import { leading, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const TITLE: TextStyle = { sizeMm: 5.2, weight: "semibold" };
const HEADING: TextStyle = { sizeMm: 3.5, weight: "semibold" };
const BODY: TextStyle = { sizeMm: 2.9 };
const GAP_MM = 8;
const ABOVE_MM = 7;
const INDENT_MM = 4;

/** The cautions read out before the work begins: what always holds beside what is worn, then what trees share. `left` found no room on the cover. */
export function drawCautions(
  sheet: Sheet,
  { standing, equipment, shared, seasons }: CautionPage,
  left: readonly string[],
): void {
  const column = (sheet.width - GAP_MM) / 2;
  const head = Math.max(listMm(sheet, standing, column), listMm(sheet, equipment, column));
  if (sheet.y > sheet.top) sheet.y += ABOVE_MM;
  sheet.room(leading(TITLE) + 2 + head);
  sheet.y += sheet.paragraph(sheet.say("Cautions"), sheet.left, sheet.y, sheet.width, TITLE, "H2") + 2;
  const top = sheet.y;
  drawList(sheet, sheet.say("Always"), standing, sheet.left, column);
  const end = sheet.y;
  sheet.y = top;
  drawList(sheet, sheet.say("What is worn"), equipment, sheet.left + column + GAP_MM, column);
  sheet.y = Math.max(end, sheet.y);
  if (left.length > 0) drawList(sheet, sheet.say("This zone, continued from the cover"), left, sheet.left, sheet.width);
  if (shared.length > 0) drawList(sheet, sheet.say("What trees share"), shared, sheet.left, sheet.width);
  if (seasons.length > 0) drawList(sheet, sheet.say("Seasons"), seasons, sheet.left, sheet.width);
}

/** Height a list takes. */
export const listMm = (sheet: Sheet, items: readonly string[], width: number): number =>
  items.reduce((sum, item) => sum + sheet.measure(item, width - INDENT_MM, BODY) + 0.8, leading(HEADING) + 4);

/** A heading over items with bullets, save those that bear a number; goes on to the next page between items. Moves the cursor below it. */
export function drawList(sheet: Sheet, title: string, items: readonly string[], x: number, width: number): void {
  const itemMm = (item: string): number => sheet.measure(item, width - INDENT_MM, BODY);
  sheet.room(leading(HEADING) + 1 + itemMm(items[0] ?? ""));
  sheet.y += sheet.paragraph(title, x, sheet.y, width, HEADING, "H2") + 1;
  for (const item of items) {
    sheet.room(itemMm(item));
    if (!/^\d+\. /.test(item)) drawBullet(sheet, x, sheet.y);
    sheet.y += sheet.paragraph(item, x + INDENT_MM, sheet.y, width - INDENT_MM, BODY) + 0.8;
  }
  sheet.y += 3;
}
