import type { PacketContent } from "../../core/packet/packet-content.ts";
import type { TrafficPage } from "../../core/packet/traffic/traffic-page.ts";
import { leading, QUIET_INK, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const NAME: TextStyle = { sizeMm: 8.2, weight: "semibold" };
const SUBTITLE: TextStyle = { sizeMm: 3.9 };
const LABEL: TextStyle = { sizeMm: 2.5, color: QUIET_INK };
const VALUE: TextStyle = { sizeMm: 4.3, weight: "semibold" };
const HEADING: TextStyle = { sizeMm: 3.5, weight: "semibold" };
const BODY: TextStyle = { sizeMm: 3 };
const FIGURE_COLUMNS = 4;
/**
 * The packet's first page: what, when, who, where, what to look out for, and what to fill in before starting. Answers the cautions that found no
 * room on it.
 */
export function drawCover(sheet: Sheet, content: PacketContent): readonly string[] {
  const { cover, title } = content;
  sheet.newPage();
  sheet.y += sheet.paragraph(sheet.say("Work packet"), sheet.left, sheet.y, sheet.width, LABEL);
  sheet.y += sheet.paragraph(title, sheet.left, sheet.y, sheet.width, NAME, "H1");
  sheet.y += sheet.paragraph(cover.subtitle, sheet.left, sheet.y + 0.5, sheet.width, SUBTITLE) + 3;
  drawFigures(sheet, cover.figures);
  sheet.figure(cover.map, sheet.left, sheet.y, sheet.width);
  sheet.y += (cover.map.heightMm * sheet.width) / cover.map.widthMm + 4;

  const gap = 8;
  const column = (sheet.width - gap) / 2;
  const top = sheet.y;
  const { end: leftEnd, left } = drawLookOut(sheet, content, column, top);
  const rightX = sheet.left + column + gap;
  const rightEnd = drawClosure(sheet, content.traffic, rightX, column, top);
  sheet.y = Math.max(leftEnd, rightEnd) + 3;
  drawEmergency(sheet, content);
  return left;
}

function drawFigures(sheet: Sheet, figures: readonly (readonly [string, string])[]): void {
  const column = sheet.width / FIGURE_COLUMNS;
  sheet.rule(sheet.left, sheet.y, sheet.right, sheet.y, 0.35);
  sheet.y += 1.8;
  for (let row = 0; row < figures.length; row += FIGURE_COLUMNS) {
    const cells = figures.slice(row, row + FIGURE_COLUMNS);
    let height = 0;
    cells.forEach(([label, value], at) => {
      const x = sheet.left + at * column;
      sheet.paragraph(label, x, sheet.y, column - 3, LABEL);
      const isLong = sheet.text.width(value, VALUE) > column - 3;
      const style = isLong ? { ...VALUE, sizeMm: 3.2 } : VALUE;
      height = Math.max(height, sheet.paragraph(value, x, sheet.y + 3.2, column - 3, style));
    });
    sheet.y += 3.2 + height + 1.6;
  }
  sheet.rule(sheet.left, sheet.y, sheet.right, sheet.y, 0.35);
  sheet.y += 3.5;
}

/** Cautions of the zone; those that find no room are answered, for the page of cautions, and the last line says so. */
function drawLookOut(
  sheet: Sheet,
  { cover }: PacketContent,
  width: number,
  top: number,
): { readonly end: number; readonly left: readonly string[] } {
  const room = sheet.bottom - emergencyMm(cover.emergency.length) - 6;
  let y = top + sheet.paragraph(sheet.say("Look out for"), sheet.left, top, width, HEADING, "H2") + 0.8;
  const lines = [...cover.cautions, ...(cover.notChecked === null ? [] : [cover.notChecked])];
  for (const [at, text] of lines.entries()) {
    const needed = sheet.measure(text, width - 3.5, BODY) + (at + 1 < lines.length ? leading(BODY) : 0);
    if (y + needed > room) {
      const more = sheet.say(`${lines.length - at} more under Cautions.`);
      return { end: y + sheet.paragraph(more, sheet.left, y, width, BODY), left: lines.slice(at) };
    }
    drawBullet(sheet, sheet.left, y);
    y += sheet.paragraph(text, sheet.left + 3.5, y, width - 3.5, BODY) + 0.5;
  }
  return { end: y, left: [] };
}

function drawClosure(
  sheet: Sheet,
  { title, road, note, facts }: TrafficPage,
  x: number,
  width: number,
  top: number,
): number {
  let y = top + sheet.paragraph(sheet.say("Traffic"), x, top, width, HEADING, "H2") + 0.8;
  y += sheet.paragraph(title, x, y, width, { ...BODY, weight: "semibold" });
  if (road !== null) y += sheet.paragraph(road, x, y, width, BODY);
  const more = facts.length === 0 ? note : `${note} ${sheet.say("Figures under Traffic control.")}`;
  return y + sheet.paragraph(more, x, y + 0.5, width, BODY) + 0.5;
}

const EMERGENCY_LINE_MM = 7.2;
const emergencyMm = (lines: number): number => 12 + Math.ceil(lines / 2) * EMERGENCY_LINE_MM;

/** Fixed to the foot of the page, so that everybody finds it in the same place. */
function drawEmergency(sheet: Sheet, { cover: { emergency, location } }: PacketContent): void {
  const height = emergencyMm(emergency.length);
  const top = Math.max(sheet.y, sheet.bottom - height);
  const [x, width] = [sheet.left + 3, sheet.width - 6];
  sheet.artifact(() => {
    sheet.doc.rect(sheet.left, top, sheet.width, height).lineWidth(0.5).strokeColor("#000000").stroke();
  });
  sheet.paragraph(sheet.say("In an emergency (fill in before starting)"), x, top + 1.6, width, HEADING, "H2");
  const style = { ...BODY, sizeMm: 2.9 };
  const [first = "", ...more] = sheet.text.wrap(location, width, style);
  sheet.paragraph(more.length === 0 ? first : `${first}...`, x, top + 6.6, width, style);
  const column = (width - 6) / 2;
  emergency.forEach((line, at) => {
    const from = x + (at % 2) * (column + 6);
    const isLastAlone = at === emergency.length - 1 && at % 2 === 0;
    const y = top + 10.6 + (Math.floor(at / 2) + 0.66) * EMERGENCY_LINE_MM;
    sheet.blank(line, from, y, isLastAlone ? x + width : from + column, style);
  });
  sheet.y = top + height;
}

export function drawBullet(sheet: Sheet, x: number, y: number): void {
  sheet.artifact(() => {
    sheet.doc
      .rect(x + 0.6, y + 1.5, 1.1, 1.1)
      .fillColor("#000000")
      .fill();
  });
}
