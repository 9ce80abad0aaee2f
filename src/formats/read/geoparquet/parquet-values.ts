import type { FileMetaData, ParquetParsers, SchemaElement } from "hyparquet";
import { NumberText } from "../json-value.ts";
import { shortestFloat } from "../shortest-float.ts";

/** A Parquet value as a property. */
export type ToValue = (value: unknown) => unknown;

/** Parsers that keep what the file says: dates as `YYYY-MM-DD`, times as ISO 8601 to the digit, texts and geometries as their bytes. */
export const EXACT_PARSERS: Partial<ParquetParsers> = {
  timestampFromMilliseconds: (millis) => timestampText(BigInt(millis) * 1_000_000n, 3),
  timestampFromMicroseconds: (micros) => timestampText(BigInt(micros) * 1000n, 6),
  timestampFromNanoseconds: (nanos) => timestampText(BigInt(nanos), 9),
  dateFromDays: (days) => dateText(days),
  stringFromBytes: (bytes) => textOrBytes(bytes),
  jsonFromBytes: (bytes) => jsonOrText(bytes),
  geometryFromBytes: (bytes) => bytes,
  geographyFromBytes: (bytes) => bytes,
} as Partial<ParquetParsers>;

/**
 * How the values of a top-level column are to be kept, after its element was stripped of what the reader would round: decimals come as
 * whole numbers and get their point here, digit by digit. Changes `metadata`.
 */
export function exactColumn(element: SchemaElement): ToValue {
  if (element.converted_type === "DECIMAL") {
    const scale = element.scale ?? 0;
    delete element.converted_type;
    delete element.logical_type;
    return (value) => (value === null || value === undefined ? null : decimalValue(value, scale));
  }
  const logical = element.logical_type as { type?: string; isAdjustedToUTC?: boolean } | undefined;
  if (element.type === "FLOAT") return (value) => (typeof value === "number" ? shortestFloat(value) : (value ?? null));
  if (logical?.type === "TIMESTAMP" && logical.isAdjustedToUTC === false) {
    return (value) => (typeof value === "string" && value.endsWith("Z") ? value.slice(0, -1) : (value ?? null));
  }
  if (element.type === "BYTE_ARRAY")
    return (value) => (value instanceof Uint8Array ? textOrBytes(value) : (value ?? null));
  return (value) => value ?? null;
}

/** The elements of the top-level columns, in order. */
export function topElements({ schema }: FileMetaData): SchemaElement[] {
  const elements: SchemaElement[] = [];
  let skip = 0;
  for (const element of schema.slice(1)) {
    if (skip === 0) elements.push(element);
    else skip -= 1;
    skip += element.num_children ?? 0;
  }
  return elements;
}

function decimalValue(value: unknown, scale: number): unknown {
  const whole = value instanceof Uint8Array ? bigEndian(value) : BigInt(value as number | bigint);
  const isNegative = whole < 0n;
  const digits = String(isNegative ? -whole : whole).padStart(scale + 1, "0");
  const point = digits.length - scale;
  const text = `${isNegative ? "-" : ""}${digits.slice(0, point)}${scale > 0 ? `.${digits.slice(point)}` : ""}`;
  return digits.length <= 15 ? new NumberText(text) : text;
}

function bigEndian(bytes: Uint8Array): bigint {
  let value = 0n;
  for (const byte of bytes) value = value * 256n + BigInt(byte);
  return bytes.length > 0 && bytes[0]! >= 128 ? value - (1n << BigInt(bytes.length * 8)) : value;
}

function timestampText(nanos: bigint, digits: number): string {
  const perSecond = 1_000_000_000n;
  const rest = ((nanos % perSecond) + perSecond) % perSecond;
  const seconds = Number((nanos - rest) / perSecond);
  const date = new Date(seconds * 1000);
  if (!Number.isFinite(date.getTime())) return String(nanos);
  const fraction = String(rest).padStart(9, "0").slice(0, digits);
  const shown = /[1-9]/.test(fraction) ? `.${fraction}` : "";
  return `${date.toISOString().slice(0, -5)}${shown}Z`;
}

function dateText(days: number): string {
  const date = new Date(days * 86_400_000);
  return Number.isFinite(date.getTime()) ? date.toISOString().slice(0, -14) : String(days);
}

function textOrBytes(bytes: Uint8Array | undefined): unknown {
  if (bytes === undefined || bytes === null) return null;
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return bytes;
  }
}

function jsonOrText(bytes: Uint8Array | undefined): unknown {
  const text = textOrBytes(bytes);
  if (typeof text !== "string") return text;
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
