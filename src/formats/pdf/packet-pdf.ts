import PDFDocument from "pdfkit";
import type { PacketContent } from "../../core/packet/packet-content.ts";
import type { IsoDate } from "../../core/units/calendar.ts";
import { drawCautions } from "./cautions.ts";
import { drawCover } from "./cover.ts";
import { drawCutGuide } from "./cut-guide.ts";
import type { FontSet } from "./font-set.ts";
import { drawOrderTable } from "./order-table.ts";
import { PAPER_MM, type Paper, POINTS_PER_MM, QUIET_INK, Sheet } from "./sheet.ts";
import { drawSignOff, signOffMm } from "./sign-off.ts";
import { TextSetter } from "./text-setter.ts";
import { drawTraffic } from "./traffic.ts";
import { drawTreeCards } from "./tree-cards.ts";

export interface PacketPdf {
  readonly bytes: Uint8Array;
  readonly pages: number;
  /** Characters that no font has, as `U+hhhh`; each was drawn as a box. */
  readonly charactersNotDrawn: readonly string[];
}

/**
 * A packet's pages as a tagged PDF for black and white print. The same content, fonts and date give the same bytes on one runtime
 * (Node and browsers compress differently). `say` gives headings in the language of the content. `asOf` is the date the document carries: the PDF knows no clock.
 */
export async function drawPacketPdf(
  content: PacketContent,
  fonts: FontSet,
  options: { readonly paper: Paper; readonly asOf: IsoDate; readonly say?: (english: string) => string },
): Promise<PacketPdf> {
  const { say = (english: string) => english } = options;
  const date = new Date(`${options.asOf}T00:00:00Z`);
  const [widthMm, heightMm] = PAPER_MM[options.paper];
  const doc = new PDFDocument({
    size: [widthMm * POINTS_PER_MM, heightMm * POINTS_PER_MM],
    margin: 0,
    // No standard font: every text is set in the fonts given.
    font: "",
    autoFirstPage: false,
    bufferPages: true,
    pdfVersion: "1.7",
    tagged: true,
    lang: content.language === "en" ? "en-US" : content.language,
    displayTitle: true,
    info: {
      Title: say(`Work packet ${content.title}`),
      Subject: say(`Plan ${content.planId}, revision ${content.revision}, zone ${content.zoneId}`),
      Creator: "Boughline",
      Producer: "Boughline",
      CreationDate: date,
      ModDate: date,
    },
  });
  const bytes = collect(doc);
  const text = new TextSetter(doc, fonts);
  const sheet = new Sheet(doc, text, options.paper, say);
  const left = drawCover(sheet, content);
  drawOrderTable(sheet, content);
  drawCautions(sheet, content.cautionPage, left);
  drawTraffic(sheet, content.traffic);
  drawTreeCards(sheet, content);
  drawCutGuide(sheet, content, signOffMm(sheet, content));
  drawSignOff(sheet, content);
  sheet.end();
  drawFeet(sheet, content.footer, heightMm);
  doc.end();
  return {
    bytes: await bytes,
    pages: sheet.pages,
    charactersNotDrawn: [...text.missing].map(codeOf),
  };
}

function drawFeet(sheet: Sheet, footer: string, heightMm: number): void {
  const style = { sizeMm: 2.5, color: QUIET_INK };
  const y = heightMm - 7;
  for (let page = 0; page < sheet.pages; page += 1) {
    sheet.doc.switchToPage(page);
    sheet.artifact(() => {
      const number = sheet.say(`Page ${page + 1} of ${sheet.pages}`);
      const room = sheet.width - sheet.text.width(number, style) - 6;
      const [first, ...more] = sheet.text.wrap(footer, room, style);
      sheet.text.line(more.length === 0 ? first! : `${first}...`, sheet.left, y, style);
      sheet.text.line(number, sheet.right, y, style, "end");
    });
  }
}

function collect(doc: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    doc.on("error", reject);
    doc.on("end", () => {
      const whole = new Uint8Array(chunks.reduce((total, { length }) => total + length, 0));
      let at = 0;
      for (const chunk of chunks) {
        whole.set(chunk, at);
        at += chunk.length;
      }
      resolve(whole);
    });
  });
}

const codeOf = (character: string): string =>
  `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;
