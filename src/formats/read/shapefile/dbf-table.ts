import type { FeatureFault } from "../../geojson/feature-fault.ts";
import { NumberText } from "../json-value.ts";
import { damaged } from "../unreadable-file.ts";
import { type DbfText, dbfText } from "./dbf-text.ts";

/** The attribute table of a shapefile. */
export interface DbfTable {
  readonly names: readonly string[];
  /** Rows in the file, deleted ones included. */
  readonly rows: number;
  /** Name of the text encoding. */
  readonly encoding: string;
  readonly findings: readonly FeatureFault[];
  /** Values of a row; null past the end. */
  row(index: number): readonly unknown[] | "deleted" | null;
}

interface Field {
  readonly nameBytes: Uint8Array;
  readonly type: string;
  readonly at: number;
  readonly length: number;
}

const FIELD_BYTES = 32;
const DELETED = 0x2a;

/**
 * A dBASE table (dBASE III+ layout, which the Shapefile Technical Description builds on). Numbers keep every digit the file has: whole
 * ones past 2^53 become text. Dates become `YYYY-MM-DD`, logical fields true, false or null; blank fields are null. Text loses the blanks
 * at its end, which the format pads with. Throws UnreadableError when the table is damaged.
 */
export function openDbf(bytes: Uint8Array, cpg: Uint8Array | null): DbfTable {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.byteLength < 33) throw damaged(".dbf file", "it is too short");
  const headerBytes = view.getUint16(8, true);
  const rowBytes = view.getUint16(10, true);
  if (headerBytes < 33 || headerBytes > view.byteLength || rowBytes < 1)
    throw damaged(".dbf file", "its header is broken");
  const fields = readFields(bytes, headerBytes, rowBytes);
  const rows = Math.min(view.getUint32(4, true), Math.floor((view.byteLength - headerBytes) / rowBytes));
  const text = dbfText(bytes, cpg, {
    headerBytes,
    rowBytes,
    rows,
    textFields: fields.filter(({ type }) => isText(type)),
  });
  return {
    names: fields.map(({ nameBytes }) => text.decode(nameBytes).trim()),
    rows,
    encoding: text.encoding,
    findings: text.findings,
    row(index) {
      if (index >= rows) return null;
      const start = headerBytes + index * rowBytes;
      if (bytes[start] === DELETED) return "deleted";
      return fields.map((field) =>
        fieldValue(bytes.subarray(start + field.at, start + field.at + field.length), field, text),
      );
    },
  };
}

function readFields(bytes: Uint8Array, headerBytes: number, rowBytes: number): Field[] {
  const fields: Field[] = [];
  let at = 1;
  for (let start = 32; start + FIELD_BYTES <= headerBytes && bytes[start] !== 0x0d; start += FIELD_BYTES) {
    const type = String.fromCharCode(bytes[start + 11]!);
    // Text fields longer than 255 keep the upper byte of their length where others keep decimals.
    const length = bytes[start + 16]! + (type === "C" ? bytes[start + 17]! * 256 : 0);
    if (at + length > rowBytes) throw damaged(".dbf file", "its columns are wider than its rows");
    const nameEnd = bytes.subarray(start, start + 11).indexOf(0);
    const nameBytes = bytes.subarray(start, start + (nameEnd === -1 ? 11 : nameEnd));
    fields.push({ nameBytes, type, at, length });
    at += length;
  }
  return fields;
}

const isText = (type: string): boolean => !"NFDLIBO".includes(type);

function fieldValue(bytes: Uint8Array, { type }: Field, text: DbfText): unknown {
  if (isText(type)) {
    const value = withoutPadding(text.decode(bytes));
    return value === "" ? null : value;
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (type === "I" && bytes.length === 4) return view.getInt32(0, true);
  if ((type === "B" || type === "O") && bytes.length === 8) return view.getFloat64(0, true);
  const value = ascii(bytes).trim();
  if (value === "" || isFilled(value, "*")) return null;
  if (type === "L")
    return "YyTt".includes(value) ? true : "NnFf".includes(value) ? false : value === "?" ? null : value;
  if (type === "D") return dateText(value);
  return numberValue(value);
}

/** A number as JSON where it is one; text where JSON would round a whole number, or where it is no number. */
function numberValue(value: string): unknown {
  const number = Number(value);
  if (!Number.isFinite(number)) return value;
  const isWhole = /^-?\d+$/.test(value);
  if (isWhole && !Number.isSafeInteger(number)) return value;
  return /^-?(0|[1-9]\d*)(\.\d+)?$/.test(value) ? new NumberText(value) : number;
}

function dateText(value: string): string | null {
  if (isFilled(value, "0")) return null;
  return /^\d{8}$/.test(value) ? `${value.slice(0, 4)}-${value.slice(4, 6)}-${value.slice(6)}` : value;
}

const isFilled = (value: string, letter: string): boolean => [...value].every((one) => one === letter);

/** Blanks and zero bytes at the end are padding. */
function withoutPadding(text: string): string {
  let end = text.length;
  while (end > 0 && (text[end - 1] === " " || text[end - 1] === "\0")) end -= 1;
  return text.slice(0, end);
}

const ascii = (bytes: Uint8Array): string => {
  let text = "";
  for (const byte of bytes) text += byte === 0 ? " " : String.fromCharCode(byte);
  return text;
};
