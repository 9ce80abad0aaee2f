import type { OrderRow } from "../../core/packet/order-row.ts";
import type { PacketContent } from "../../core/packet/packet-content.ts";
import { leading, type Sheet } from "./sheet.ts";
import type { TextStyle } from "./text-setter.ts";

const TITLE: TextStyle = { sizeMm: 5.2, weight: "semibold" };
const HEAD: TextStyle = { sizeMm: 2.6, weight: "semibold" };
const BODY: TextStyle = { sizeMm: 2.9 };
const STRONG: TextStyle = { sizeMm: 2.9, weight: "semibold" };
const PAD_MM = 1.3;
/** A cell with more lines than this is cut; its whole text is on the tree's card and in the table file. */
const MOST_LINES = 14;

interface Column {
  readonly title: string;
  /** Share of the type area. */
  readonly share: number;
  readonly style: TextStyle;
  readonly text: (row: OrderRow) => string;
}

const COLUMNS: readonly Column[] = [
  { title: "No.", share: 0.05, style: STRONG, text: ({ number }) => String(number) },
  { title: "Tree", share: 0.1, style: STRONG, text: ({ treeId }) => treeId },
  { title: "Species", share: 0.17, style: BODY, text: ({ species }) => species },
  { title: "Place", share: 0.17, style: BODY, text: ({ place }) => place },
  { title: "What", share: 0.18, style: BODY, text: ({ what }) => what },
  { title: "Crown", share: 0.07, style: BODY, text: ({ dose }) => dose },
  { title: "Crew and notes", share: 0.2, style: BODY, text: ({ notes }) => notes },
  { title: "Done", share: 0.06, style: BODY, text: () => "" },
];

/** The order of work as a table, as many pages as it takes, its head repeated on each. */
export function drawOrderTable(sheet: Sheet, content: PacketContent): void {
  startPage(sheet, sheet.say("Order of work"));
  for (const row of content.order) {
    const cells = COLUMNS.map(({ share, style, text }) =>
      sheet.text.wrap(text(row), share * sheet.width - 2 * PAD_MM, style),
    ).map((lines) => (lines.length > MOST_LINES ? [...lines.slice(0, MOST_LINES - 1), "(cut: see card)"] : lines));
    const height = Math.max(...cells.map((lines) => lines.length)) * leading(BODY) + 2 * PAD_MM;
    if (sheet.y + height > sheet.bottom) startPage(sheet, sheet.say("Order of work, continued"));
    drawRow(sheet, cells, height);
    sheet.y += height;
    sheet.rule(sheet.left, sheet.y, sheet.right, sheet.y);
  }
}

function drawRow(sheet: Sheet, cells: readonly (readonly string[])[], height: number): void {
  let x = sheet.left;
  COLUMNS.forEach(({ share, style, title }, at) => {
    const cellX = x + PAD_MM;
    sheet.tag(title === "Done" ? "Form" : "P", () => {
      cells[at]!.forEach((line, row) => {
        sheet.text.line(line, cellX, sheet.y + PAD_MM + row * leading(style) + style.sizeMm, style);
      });
      if (title === "Done") {
        sheet.doc
          .rect(cellX + 1, sheet.y + height / 2 - 2, 4, 4)
          .lineWidth(0.25)
          .strokeColor("#000000")
          .stroke();
      }
    });
    x += share * sheet.width;
  });
}

function startPage(sheet: Sheet, title: string): void {
  sheet.newPage();
  sheet.y += sheet.paragraph(title, sheet.left, sheet.y, sheet.width, TITLE, "H2") + 2;
  let x = sheet.left;
  for (const column of COLUMNS) {
    sheet.paragraph(sheet.say(column.title), x + PAD_MM, sheet.y, column.share * sheet.width, HEAD);
    x += column.share * sheet.width;
  }
  sheet.y += leading(HEAD) + 1;
  sheet.rule(sheet.left, sheet.y, sheet.right, sheet.y, 0.35);
}
