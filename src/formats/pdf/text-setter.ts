import type { FontSet, Weight } from "./font-set.ts";

/** Part of a text that one font sets. */
interface Run {
  readonly font: string;
  readonly text: string;
}

export interface TextStyle {
  /** Type size in millimeters. */
  readonly sizeMm: number;
  readonly weight?: Weight;
  readonly color?: string;
}

/** Stands for a character that no font has: a white square, which the last font must have. */
const MISSING = "\u25A1";

/** What pdfkit keeps of a font and does not declare. */
interface EmbeddedFont {
  readonly font?: { readonly hasGlyphForCodePoint: (codePoint: number) => boolean };
}

/**
 * Sets texts in a PDF, each character in the first font that has it. Lengths are in the document's current units, millimeters under
 * `paintDrawing` and on a `Sheet`. Scripts are not shaped and always run left to right.
 */
export class TextSetter {
  /** Characters that no font has, in order of appearance; each was drawn as a box. */
  readonly missing = new Set<string>();
  readonly #doc: PDFKit.PDFDocument;
  readonly #names: Readonly<Record<Weight, readonly string[]>>;
  readonly #fontOf = new Map<string, string | null>();
  /** Lines found before: pages are measured before they are drawn. */
  readonly #wrapped = new Map<string, readonly string[]>();

  constructor(doc: PDFKit.PDFDocument, fonts: FontSet) {
    this.#doc = doc;
    const register = (weight: Weight) =>
      fonts[weight].map((bytes, at) => {
        const name = `${weight}-${at}`;
        doc.registerFont(name, bytes as Uint8Array<ArrayBuffer>);
        return name;
      });
    this.#names = { regular: register("regular"), semibold: register("semibold") };
  }

  /** Width of a text on one line. */
  width(text: string, style: TextStyle): number {
    let total = 0;
    for (const run of this.#runs(text, style.weight ?? "regular")) {
      this.#doc.font(run.font).fontSize(style.sizeMm);
      total += this.#doc.widthOfString(run.text);
    }
    return total;
  }

  /** Draws a text on one line, its baseline at y, starting, centered or ending at x. Answers the x at which it ends. */
  line(text: string, x: number, y: number, style: TextStyle, anchor: "start" | "middle" | "end" = "start"): number {
    const runs = this.#runs(text, style.weight ?? "regular");
    const width = anchor === "start" ? 0 : this.width(text, style);
    let at = anchor === "start" ? x : anchor === "middle" ? x - width / 2 : x - width;
    for (const run of runs) {
      this.#doc
        .font(run.font)
        .fontSize(style.sizeMm)
        .fillColor(style.color ?? "#000000");
      this.#doc.text(run.text, at, y, { lineBreak: false, baseline: "alphabetic" });
      at += this.#doc.widthOfString(run.text);
    }
    return at;
  }

  /** Lines of at most a width, broken at blanks, or inside a word that is longer than a line. At least one line. */
  wrap(text: string, width: number, style: TextStyle): readonly string[] {
    const key = `${style.sizeMm} ${style.weight ?? ""} ${width} ${text}`;
    const known = this.#wrapped.get(key);
    if (known !== undefined) return known;
    const lines = this.#broken(text, width, style);
    this.#wrapped.set(key, lines);
    return lines;
  }

  #broken(text: string, width: number, style: TextStyle): string[] {
    const lines: string[] = [];
    let current = "";
    for (const word of text.split(/\s/).filter((part) => part !== "")) {
      const longer = current === "" ? word : `${current} ${word}`;
      if (this.width(longer, style) <= width) {
        current = longer;
        continue;
      }
      if (current !== "") lines.push(current);
      const pieces = this.#pieces(word, width, style);
      lines.push(...pieces.slice(0, -1));
      current = pieces.at(-1)!;
    }
    if (current !== "" || lines.length === 0) lines.push(current);
    return lines;
  }

  #pieces(word: string, width: number, style: TextStyle): string[] {
    const pieces: string[] = [];
    let piece = "";
    for (const character of word) {
      if (piece !== "" && this.width(piece + character, style) > width) {
        pieces.push(piece);
        piece = character;
      } else piece += character;
    }
    return [...pieces, piece];
  }

  #runs(text: string, weight: Weight): Run[] {
    const runs: { font: string; text: string }[] = [];
    for (const character of text) {
      const last = runs.at(-1);
      const [font, drawn] = this.#choose(character, weight, last?.font ?? null);
      if (last !== undefined && last.font === font) last.text += drawn;
      else runs.push({ font, text: drawn });
    }
    return runs;
  }

  /** The font for a character and what is drawn for it. Marks and blanks stay with the font before them where it has them. */
  #choose(character: string, weight: Weight, before: string | null): readonly [string, string] {
    const staysTogether = before !== null && /^[\p{M}\s]$/u.test(character);
    if (staysTogether && this.#has(before, character)) return [before, character === "\n" ? " " : character];
    const key = `${weight}${character}`;
    let font = this.#fontOf.get(key);
    if (font === undefined) {
      font = this.#names[weight].find((name) => this.#has(name, character)) ?? null;
      this.#fontOf.set(key, font);
    }
    if (font !== null) return [font, character];
    this.missing.add(character);
    return [this.#names[weight].at(-1)!, MISSING];
  }

  #has(name: string, character: string): boolean {
    const codePoint = character.codePointAt(0)!;
    if (codePoint < 0x20 || (codePoint >= 0x7f && codePoint < 0xa0)) return false;
    // Turns the direction of a text: nothing to see, and another order than the one that is read.
    if ((codePoint >= 0x202a && codePoint <= 0x202e) || (codePoint >= 0x2066 && codePoint <= 0x2069)) return false;
    this.#doc.font(name);
    const { font } = (this.#doc as unknown as { readonly _font: EmbeddedFont })._font;
    return font?.hasGlyphForCodePoint(codePoint) ?? false;
  }
}
