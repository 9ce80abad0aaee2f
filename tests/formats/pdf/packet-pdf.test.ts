import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { loadFonts } from "../../../src/cli/fonts.ts";
import { packetContent } from "../../../src/core/packet/packet-content.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { drawPacketPdf } from "../../../src/formats/pdf/packet-pdf.ts";
import { smallPlan, smallZone } from "../../core/packet/small-plan.ts";

const fonts = await loadFonts();
const content = packetContent(smallPlan, smallZone, usCommon());
const options = { paper: "letter", asOf: smallPlan.options.asOf } as const;

const hasPdftotext = (() => {
  try {
    execFileSync("pdftotext", ["-v"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();

function pdfText(bytes: Uint8Array): string {
  const folder = mkdtempSync(join(tmpdir(), "packet-"));
  try {
    writeFileSync(join(folder, "sheets.pdf"), bytes);
    return execFileSync("pdftotext", ["-layout", join(folder, "sheets.pdf"), "-"], { encoding: "utf8" });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe("drawPacketPdf", () => {
  test("gives the same bytes twice", async () => {
    const first = await drawPacketPdf(content, fonts, options);
    const second = await drawPacketPdf(content, fonts, options);
    expect(Buffer.from(first.bytes).equals(Buffer.from(second.bytes))).toBe(true);
  });

  test("has a cover, order with cautions, two trees a page, and a cut guide with the sign-off", async () => {
    const pdf = await drawPacketPdf(content, fonts, options);
    // 1 cover + 1 order and cautions + ceil(9 / 2) cards + 1 cut guide and sign-off.
    expect(pdf.pages).toBe(8);
    expect(pdf.charactersNotDrawn).toEqual([]);
    const a4 = await drawPacketPdf(content, fonts, { ...options, paper: "a4" });
    expect(a4.pages).toBe(8);
  });

  test.skipIf(!hasPdftotext)(
    "carries every tree id, plan, revision and page number as text (needs pdftotext)",
    async () => {
      const text = pdfText((await drawPacketPdf(content, fonts, options)).bytes);
      for (const treeId of smallZone.treeIds) expect(text).toContain(treeId);
      expect(text.match(/plan small-town-2027, revision 3/g)).toHaveLength(8);
      for (let page = 1; page <= 8; page += 1) expect(text).toContain(`Page ${page} of 8`);
    },
  );

  test.skipIf(!hasPdftotext)(
    "shows cautions and traffic control before the cards, and never leaves the sign-off alone (needs pdftotext)",
    async () => {
      for (const paper of ["letter", "a4"] as const) {
        const pages = pdfText((await drawPacketPdf(content, fonts, { ...options, paper })).bytes).split("\f");
        const pageOf = (words: string) => pages.findIndex((page) => page.includes(words));
        expect(pageOf("What is worn")).toBeLessThan(pageOf("live crown taken %"));
        expect(pageOf("not a traffic control plan")).toBeGreaterThan(0);
        expect(pageOf("not a traffic control plan")).toBeLessThanOrEqual(pageOf("live crown taken %"));
        expect(pages[pageOf("not a traffic control plan")]).toContain("TA-10");
        expect(pages[pageOf("Before you leave")]).toMatch(/Do not|live crown taken/);
      }
    },
  );

  test.skipIf(!hasPdftotext)(
    "sets other scripts in the second font and flags what no font has (needs pdftotext)",
    async () => {
      const card = { ...content.cards[0]!, name: "Липа Ełk Ω \u{1F333}\u0007" };
      const pdf = await drawPacketPdf({ ...content, cards: [card] }, fonts, options);
      expect(pdf.charactersNotDrawn).toEqual(["U+1F333", "U+0007"]);
      expect(pdfText(pdf.bytes)).toContain("Липа Ełk Ω □□");
    },
  );

  test("takes texts of any length without losing a page or failing", async () => {
    const long = "branch ".repeat(200);
    const card = {
      ...content.cards[0]!,
      treeId: "x".repeat(250),
      texts: [
        ["Why", long],
        ["How", "y".repeat(256)],
      ] as const,
    };
    const order = [{ ...content.order[0]!, notes: long, species: "z".repeat(256) }];
    const pdf = await drawPacketPdf({ ...content, order, cards: [card, card, card] }, fonts, options);
    expect(pdf.pages).toBeGreaterThanOrEqual(4);
  });
});
