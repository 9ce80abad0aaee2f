import type { TrafficPage } from "../../core/packet/traffic/traffic-page.ts";
import { drawBullet } from "./cover.ts";
import { leading, QUIET_INK, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const TITLE: TextStyle = { sizeMm: 5.2, weight: "semibold" };
const STRONG: TextStyle = { sizeMm: 3, weight: "semibold" };
const BODY: TextStyle = { sizeMm: 2.9 };
const LABEL: TextStyle = { sizeMm: 2.6, color: QUIET_INK };
const LABEL_MM = 18;
const GAP_MM = 8;
const ABOVE_MM = 7;

/**
 * Traffic control: the sketch of one set-up over its figures in two columns. Stays on one page, the one it finds begun where it fits. Nothing where no
 * road is concerned: the cover says all there is.
 */
export function drawTraffic(sheet: Sheet, traffic: TrafficPage): void {
  const { title, road, note, sketch, facts, assumptions } = traffic;
  if (sketch === null && facts.length === 0) return;
  const rows = inColumns(sheet, traffic);
  const sketchMm = sketch === null ? 0 : (sketch.heightMm * sheet.width) / sketch.widthMm;
  const factsMm = Math.max(...rows.map(({ heightMm }) => heightMm));
  // With a sketch the figures say all that the note does, and the sketch who confirms it.
  const said = sketch === null ? [note] : [];
  const texts = [...said, ...assumptions].reduce(
    (sum, text) => sum + sheet.measure(text, sheet.width - 4, BODY) + 0.6,
    0,
  );
  const height = leading(TITLE) + 2 + leading(STRONG) + 1 + sketchMm + factsMm + texts + 4;
  if (sheet.y > sheet.top) sheet.y += ABOVE_MM;
  sheet.room(height);
  sheet.y += sheet.paragraph(sheet.say("Traffic control"), sheet.left, sheet.y, sheet.width, TITLE, "H2") + 1;
  const what = road === null ? title : `${title}: ${road}`;
  sheet.y += sheet.paragraph(what, sheet.left, sheet.y, sheet.width, STRONG) + 1;
  if (sketch !== null) {
    sheet.figure(sketch, sheet.left, sheet.y, sheet.width);
    sheet.y += sketchMm;
  }
  for (const text of said) sheet.y += sheet.paragraph(text, sheet.left, sheet.y, sheet.width, BODY) + 1.5;
  drawFacts(sheet, rows);
  sheet.y += factsMm + 1;
  for (const text of assumptions) {
    drawBullet(sheet, sheet.left, sheet.y);
    sheet.y += sheet.paragraph(text, sheet.left + 4, sheet.y, sheet.width - 4, BODY) + 0.6;
  }
}

interface Column {
  readonly facts: TrafficPage["facts"];
  readonly heightMm: number;
}

const columnMm = (sheet: Sheet): number => (sheet.width - GAP_MM) / 2;
const factMm = (sheet: Sheet, value: string): number => sheet.measure(value, columnMm(sheet) - LABEL_MM, BODY) + 0.9;

/** The facts in two columns, the first as long as half of all or a little longer. */
function inColumns(sheet: Sheet, { facts }: TrafficPage): readonly Column[] {
  const heights = facts.map(([, value]) => factMm(sheet, value));
  const half = heights.reduce((sum, one) => sum + one, 0) / 2;
  let end = 0;
  let used = 0;
  while (end < facts.length && used < half) used += heights[end++]!;
  const column = (from: number, to: number): Column => ({
    facts: facts.slice(from, to),
    heightMm: heights.slice(from, to).reduce((sum, one) => sum + one, 0),
  });
  return [column(0, end), column(end, facts.length)];
}

function drawFacts(sheet: Sheet, columns: readonly Column[]): void {
  columns.forEach(({ facts }, at) => {
    const x = sheet.left + at * (columnMm(sheet) + GAP_MM);
    let y = sheet.y;
    for (const [label, value] of facts) {
      sheet.paragraph(label, x, y + 0.3, LABEL_MM, LABEL);
      sheet.paragraph(value, x + LABEL_MM, y, columnMm(sheet) - LABEL_MM, BODY);
      y += factMm(sheet, value);
    }
  });
}
