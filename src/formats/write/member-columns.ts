import { parseIsoDate } from "../../core/units/calendar.ts";
import type { GeoJsonRead } from "../geojson/geojson-read.ts";
import { JsonScanner } from "../json/json-scanner.ts";
import { keyText } from "../json/key-text.ts";
import { utf8Text } from "../json/utf8-text.ts";
import type { CellValue, ColumnType } from "./layer-table.ts";

/** A column made of one member of the features' properties, under the member's own name. */
export interface MemberColumn {
  readonly name: string;
  readonly type: ColumnType;
  readonly values: readonly CellValue[];
}

type Kind = "boolean" | "integer" | "real" | "text" | "day" | "nested" | "odd";

/**
 * One column for each member that the properties of a file's features have, in the order of first appearance, with the features' own values.
 *
 * A member with values of one kind keeps it: true or false, whole numbers, numbers, days (`YYYY-MM-DD`, the 31st of June being none), text. Mixed kinds become text, each value as it is
 * written in the file; so do whole numbers past 2^53 and numbers past the range of a double. Lists and objects become their JSON text. A member
 * that is absent and one that is null are both null. Of a repeated member the last counts.
 */
export function memberColumns(read: GeoJsonRead): MemberColumn[] {
  const kinds = kindsOf(read);
  const types = new Map([...kinds].map(([name, met]) => [name, typeOf(met)] as const));
  const asWritten = new Set([...kinds].filter(([name, met]) => types.get(name) === "text" && hasOther(met)).map(first));
  const values = new Map<string, CellValue[]>([...kinds.keys()].map((name) => [name, []]));
  for (const feature of read.features) {
    const { properties } = feature;
    const texts = asWritten.size === 0 ? null : textsOf(read, feature.index, asWritten);
    for (const [name, column] of values) {
      const value = Object.hasOwn(properties, name) ? properties[name] : null;
      const isOther = value !== null && typeof value !== "string" && types.get(name) === "text";
      column.push(isOther ? (texts?.get(name) ?? null) : (value as CellValue));
    }
  }
  return namesInOrder(read, kinds).map((name) => ({ name, type: types.get(name)!, values: values.get(name)! }));
}

function kindsOf(read: GeoJsonRead): Map<string, Set<Kind>> {
  const kinds = new Map<string, Set<Kind>>();
  for (const { properties } of read.features) {
    for (const name of Object.keys(properties)) {
      let met = kinds.get(name);
      if (met === undefined) {
        met = new Set();
        kinds.set(name, met);
      }
      const kind = kindOf(properties[name]);
      if (kind !== null) met.add(kind);
    }
  }
  return kinds;
}

function kindOf(value: unknown): Kind | null {
  if (value === null || value === undefined) return null;
  if (typeof value === "boolean") return "boolean";
  if (typeof value === "string") return isDay(value) ? "day" : "text";
  if (typeof value !== "number") return "nested";
  if (Number.isSafeInteger(value)) return "integer";
  return Number.isFinite(value) ? "real" : "odd";
}

function typeOf(met: ReadonlySet<Kind>): ColumnType {
  if (met.size === 1 && met.has("boolean")) return "boolean";
  if (met.size === 1 && met.has("integer")) return "integer";
  if (met.size === 1 && met.has("day")) return "date";
  if (met.size > 0 && [...met].every((kind) => kind === "integer" || kind === "real")) return "real";
  return "text";
}

const hasOther = (met: ReadonlySet<Kind>): boolean => [...met].some((kind) => kind !== "text" && kind !== "day");

const isDay = (text: string): boolean => text.length === 10 && parseIsoDate(text) !== null;
const first = <T>([one]: readonly [T, ...unknown[]]): T => one;

/** The named members of a feature as they are written; a text member without its quotes and escapes is not among them. */
function textsOf(read: GeoJsonRead, index: number, names: ReadonlySet<string>): Map<string, string> {
  const texts = new Map<string, string>();
  walkMembers(read, index, (name, start, end) => {
    if (names.has(name)) texts.set(name, utf8Text(read.bytes, start, end));
  });
  return texts;
}

/**
 * Names in the order of the file. JavaScript lists whole numbers before other keys, so features whose members are named by numbers are read
 * from the bytes.
 */
function namesInOrder(read: GeoJsonRead, kinds: ReadonlyMap<string, unknown>): string[] {
  const listed = [...kinds.keys()];
  if (!listed.some((name) => /^\d{1,10}$/.test(name))) return listed;
  const ordered = new Set<string>();
  for (const { index } of read.features) walkMembers(read, index, (name) => ordered.add(name));
  return [...ordered];
}

function walkMembers(
  { bytes, ranges }: GeoJsonRead,
  index: number,
  visit: (name: string, start: number, end: number) => void,
): void {
  const start = ranges.propertiesStart[index]!;
  if (start === -1 || bytes[start] !== 0x7b) return;
  const scanner = new JsonScanner(bytes, start, ranges.propertiesEnd[index]!);
  scanner.walkObject((keyStart, keyEnd) => {
    const valueStart = scanner.at;
    scanner.skipValue();
    visit(keyText(bytes, keyStart, keyEnd), valueStart, scanner.at);
  });
}
