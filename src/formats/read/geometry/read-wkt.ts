import type { Geometry, Position } from "geojson";
import { GeometryError } from "./geometry-fault.ts";
import type { WkbGeometry } from "./read-wkb.ts";

const MAX_NESTING = 20;
/** Longest number read; 40 characters hold any double. */
const MAX_NUMBER = 64;

const TAGS: ReadonlySet<string> = new Set([
  "POINT",
  "LINESTRING",
  "POLYGON",
  "MULTIPOINT",
  "MULTILINESTRING",
  "MULTIPOLYGON",
  "GEOMETRYCOLLECTION",
]);

/** Whether a text begins like well-known text: a geometry's tag, or `SRID=` before one. */
export function looksLikeWkt(text: string): boolean {
  const start = text.slice(0, 64).trimStart().toUpperCase();
  if (start.startsWith("SRID=")) return true;
  const tag = letters(start, 0);
  return TAGS.has(withoutDimension(tag)) && /^[\s(ZME]/.test(start.slice(tag.length, tag.length + 1));
}

/**
 * The geometry in well-known text (OGC 06-103r4 section 7), with `SRID=n;` before it if need be. Heights are kept, measures left out.
 * Linear in the text. Throws GeometryError for anything else, curves and empty geometries among it.
 */
export function readWkt(text: string): WkbGeometry {
  const cursor = new WktCursor(text);
  const srid = cursor.srid();
  const geometry = cursor.geometry(0);
  cursor.expectEnd();
  return { geometry, vertices: cursor.vertices, hadMeasures: cursor.hadMeasures, srid };
}

class WktCursor {
  vertices = 0;
  hadMeasures = false;
  #at = 0;
  #dimension = "";

  constructor(readonly text: string) {}

  srid(): number | null {
    this.#skipBlanks();
    if (this.text.slice(this.#at, this.#at + 5).toUpperCase() !== "SRID=") return null;
    this.#at += 5;
    const srid = this.#number();
    if (this.text[this.#at] !== ";" || !Number.isInteger(srid))
      throw new GeometryError("The SRID of the geometry is no number.");
    this.#at += 1;
    return srid;
  }

  geometry(nesting: number): Geometry {
    if (nesting > MAX_NESTING) throw new GeometryError(`The geometry is nested more than ${MAX_NESTING} deep.`);
    const tag = this.#tag();
    switch (tag) {
      case "POINT":
        return { type: "Point", coordinates: this.#one() };
      case "LINESTRING":
        return { type: "LineString", coordinates: this.#list(() => this.#position()) };
      case "POLYGON":
        return { type: "Polygon", coordinates: this.#rings() };
      case "MULTIPOINT":
        return {
          type: "MultiPoint",
          coordinates: this.#list(() => (this.#peek() === "(" ? this.#one() : this.#position())),
        };
      case "MULTILINESTRING":
        return { type: "MultiLineString", coordinates: this.#rings() };
      case "MULTIPOLYGON":
        return { type: "MultiPolygon", coordinates: this.#list(() => this.#rings()) };
      case "GEOMETRYCOLLECTION":
        return { type: "GeometryCollection", geometries: this.#list(() => this.geometry(nesting + 1)) };
      default:
        throw new GeometryError(`A geometry of the kind "${tag.slice(0, 30)}" cannot be read.`);
    }
  }

  expectEnd(): void {
    this.#skipBlanks();
    if (this.#at < this.text.length) throw new GeometryError("There is text behind the geometry.");
  }

  #tag(): string {
    this.#skipBlanks();
    const word = letters(this.text, this.#at).toUpperCase();
    this.#at += word.length;
    const tag = withoutDimension(word);
    this.#dimension = word.slice(tag.length);
    this.#skipBlanks();
    const next = letters(this.text, this.#at).toUpperCase();
    if (next === "Z" || next === "M" || next === "ZM") {
      this.#dimension = next;
      this.#at += next.length;
    }
    if (this.#dimension.includes("M")) this.hadMeasures = true;
    return tag;
  }

  #rings = (): Position[][] => this.#list(() => this.#list(() => this.#position()));

  #one(): Position {
    const [position, ...more] = this.#list(() => this.#position());
    if (more.length > 0) throw new GeometryError("A point has more than one position.");
    return position!;
  }

  #list<T>(read: () => T): T[] {
    this.#skipBlanks();
    if (letters(this.text, this.#at).toUpperCase() === "EMPTY") throw new GeometryError("The geometry is empty.");
    this.#expect("(");
    const items = [read()];
    while (this.#peek() === ",") {
      this.#at += 1;
      items.push(read());
    }
    this.#expect(")");
    return items;
  }

  #position(): Position {
    const numbers: number[] = [this.#number(), this.#number()];
    while (numbers.length < 4) {
      const next = this.#peek();
      if (next === "," || next === ")") break;
      numbers.push(this.#number());
    }
    this.vertices += 1;
    const [x, y, third] = numbers as [number, number, number?];
    if (numbers.length === 4) this.hadMeasures = true;
    return third === undefined || this.#dimension === "M" ? [x, y] : [x, y, third];
  }

  #number(): number {
    this.#skipBlanks();
    const start = this.#at;
    while (this.#at < this.text.length && "+-.0123456789eE".includes(this.text[this.#at]!)) this.#at += 1;
    const token = this.text.slice(start, this.#at);
    const value = token === "" || token.length > MAX_NUMBER ? Number.NaN : Number(token);
    if (!Number.isFinite(value)) throw new GeometryError("A position of the geometry is no number.");
    return value;
  }

  #peek(): string | undefined {
    this.#skipBlanks();
    return this.text[this.#at];
  }

  #expect(mark: string): void {
    if (this.#peek() !== mark) throw new GeometryError(`The geometry's text is broken at character ${this.#at + 1}.`);
    this.#at += 1;
  }

  #skipBlanks(): void {
    while (this.#at < this.text.length && " \t\r\n".includes(this.text[this.#at]!)) this.#at += 1;
  }
}

/** The run of letters at an offset, at most 40 of them. */
function letters(text: string, start: number): string {
  let at = start;
  while (at < text.length && at - start < 40 && isLetter(text.charCodeAt(at))) at += 1;
  return text.slice(start, at);
}

const isLetter = (code: number): boolean => (code >= 65 && code <= 90) || (code >= 97 && code <= 122);

/** `POINTZ` and `POINTZM` are written without a blank by some programs. */
function withoutDimension(word: string): string {
  for (const ending of ["ZM", "Z", "M"]) {
    const tag = word.slice(0, -ending.length);
    if (word.endsWith(ending) && TAGS.has(tag)) return tag;
  }
  return word;
}
