import type { Drawing } from "../../core/crown/drawing.ts";
import { paintDrawing } from "./paint-drawing.ts";
import type { TextSetter, TextStyle } from "./text-setter.ts";

export type Paper = "letter" | "a4";

/** Width and height of the papers in millimeters: 8.5 by 11 inches, and ISO 216. */
export const PAPER_MM: Readonly<Record<Paper, readonly [number, number]>> = {
  letter: [215.9, 279.4],
  a4: [210, 297],
};

export const POINTS_PER_MM = 72 / 25.4;

/** Kinds of content a screen reader is told of (PDF 1.7, 14.8.4). */
export type Tag = "H1" | "H2" | "P" | "Figure" | "Table" | "TR" | "TH" | "TD" | "Form";

/** Gray of rules and small labels; still 4.5:1 against white. */
export const QUIET_INK = "#5a5a5a";
const MARGIN_X_MM = 14;
const MARGIN_TOP_MM = 11;
const MARGIN_BOTTOM_MM = 13;

/** Pages in millimeters with a cursor that runs down the type area. Everything drawn through `tag` is announced in order to screen readers. */
export class Sheet {
  readonly doc: PDFKit.PDFDocument;
  readonly text: TextSetter;
  readonly left = MARGIN_X_MM;
  readonly top = MARGIN_TOP_MM;
  readonly right: number;
  readonly bottom: number;
  y = MARGIN_TOP_MM;
  pages = 0;
  readonly #section: PDFKit.PDFStructureElement;

  /** Headings in the language of the packet. */
  readonly say: (english: string) => string;

  constructor(
    doc: PDFKit.PDFDocument,
    text: TextSetter,
    paper: Paper,
    say: (english: string) => string = (one) => one,
  ) {
    this.doc = doc;
    this.say = say;
    this.text = text;
    const [widthMm, heightMm] = PAPER_MM[paper];
    this.right = widthMm - MARGIN_X_MM;
    this.bottom = heightMm - MARGIN_BOTTOM_MM;
    this.#section = doc.struct("Document");
    doc.addStructure(this.#section);
  }

  get width(): number {
    return this.right - this.left;
  }

  /** Starts a page with the cursor at its top. */
  newPage(): void {
    this.doc.addPage();
    this.doc.scale(POINTS_PER_MM);
    this.pages += 1;
    this.y = this.top;
  }

  /** Starts a page when less than a height is left on this one; at the top of a page never. Answers whether it did. */
  room(heightMm: number): boolean {
    // Heights add up to the type area only within rounding.
    if (this.y <= this.top || this.y + heightMm <= this.bottom + 0.01) return false;
    this.newPage();
    return true;
  }

  /** Draws on the current page as one tagged piece of content. */
  tag(tag: Tag, draw: () => void, alt?: string): void {
    const element = this.doc.struct(tag, alt === undefined ? {} : { alt }, [draw]);
    this.#section.add(element);
  }

  /** Draws what is no content, such as rules and page feet. */
  artifact(draw: () => void): void {
    this.doc.markContent("Artifact", { type: "Layout" });
    draw();
    this.doc.endMarkedContent();
  }

  /** Lines of text from a top edge down; answers the height they take. */
  paragraph(text: string, x: number, y: number, width: number, style: TextStyle, tag: Tag = "P"): number {
    const lines = this.text.wrap(text, width, style);
    const step = leading(style);
    this.tag(tag, () => {
      lines.forEach((line, at) => {
        this.text.line(line, x, y + at * step + style.sizeMm, style);
      });
    });
    return lines.length * step;
  }

  /** Height a paragraph takes. */
  measure(text: string, width: number, style: TextStyle): number {
    return this.text.wrap(text, width, style).length * leading(style);
  }

  /** A drawing at its own size, or enlarged to a width; its description is told to screen readers. */
  figure(drawing: Drawing, x: number, y: number, widthMm = drawing.widthMm): void {
    const paint = () => {
      this.doc.save();
      this.doc.translate(x, y);
      this.doc.scale(widthMm / drawing.widthMm);
      paintDrawing(this.doc, this.text, drawing, 0, 0);
      this.doc.restore();
    };
    this.tag("Figure", paint, drawing.description);
  }

  rule(x1: number, y1: number, x2: number, y2: number, widthMm = 0.18, color = "#000000"): void {
    this.artifact(() => {
      this.doc.moveTo(x1, y1).lineTo(x2, y2).lineWidth(widthMm).strokeColor(color).stroke();
    });
  }

  /** An empty box to tick, its lower left corner at x, y, with its word; answers the x behind the word. */
  tick(word: string, x: number, y: number, style: TextStyle): number {
    const side = style.sizeMm * 1.15;
    let end = x;
    this.tag("Form", () => {
      this.doc
        .rect(x, y - side + 0.3, side, side)
        .lineWidth(0.25)
        .strokeColor("#000000")
        .stroke();
      end = this.text.line(word, x + side + 1.2, y, style);
    });
    return end;
  }

  /** A word and a line to write on up to `endX`. */
  blank(word: string, x: number, y: number, endX: number, style: TextStyle): void {
    let from = x;
    this.tag("Form", () => {
      from = this.text.line(word, x, y, style);
    });
    if (from + 4 < endX) this.rule(from + 1.5, y + 0.6, endX, y + 0.6, 0.18, "#000000");
  }

  end(): void {
    this.#section.end();
  }
}

/** Distance between baselines in millimeters. */
export const leading = (style: TextStyle): number => style.sizeMm * 1.3;
