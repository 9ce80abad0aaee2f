import type { PacketContent } from "../../core/packet/packet-content.ts";
import { drawList, listMm } from "./cautions.ts";
import { leading, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const TITLE: TextStyle = { sizeMm: 5.2, weight: "semibold" };
const BODY: TextStyle = { sizeMm: 3 };
const ABOVE_MM = 7;
/** Room for a line to sign: as wide as can be written on, narrower where only that keeps it on the page. */
const LINE_MM: readonly [wide: number, narrow: number] = [13, 9.5];

/** Lines to sign row by row: the first two are short and share one. */
const rowsOf = (lines: readonly string[]): readonly (readonly string[])[] => [
  lines.slice(0, 2),
  ...lines.slice(2).map((line) => [line]),
];

/** The least height the sign-off takes below something. */
export const signOffMm = (sheet: Sheet, { signOff: { statements, lines } }: PacketContent): number =>
  ABOVE_MM +
  leading(TITLE) +
  2 +
  listMm(sheet, statements, sheet.width) +
  2 +
  rowsOf(lines).length * Math.min(...LINE_MM);

/** What is ticked off and the lines to sign, together on one page: the one begun where they fit. */
export function drawSignOff(sheet: Sheet, content: PacketContent): void {
  const { statements, lines } = content.signOff;
  const rows = rowsOf(lines);
  const above = sheet.y > sheet.top ? ABOVE_MM : 0;
  const fixedMm = signOffMm(sheet, content) - ABOVE_MM + above - rows.length * Math.min(...LINE_MM);
  const pitchMm = LINE_MM.find((mm) => sheet.y + fixedMm + rows.length * mm <= sheet.bottom + 0.01);
  if (pitchMm === undefined) sheet.newPage();
  else sheet.y += above;
  sheet.y += sheet.paragraph(sheet.say("Sign-off"), sheet.left, sheet.y, sheet.width, TITLE, "H2") + 2;
  drawList(sheet, sheet.say("Before you leave"), statements, sheet.left, sheet.width);
  for (const row of rows) {
    sheet.y += pitchMm ?? LINE_MM[0];
    const width = sheet.width / row.length;
    row.forEach((line, at) => {
      const x = sheet.left + at * width;
      sheet.blank(line, x, sheet.y, at === row.length - 1 ? sheet.right : x + width - 5, BODY);
    });
  }
}
