import { parseColumnMap } from "../../core/inventory/column-map-schema.ts";
import { type ColumnMap, columnSource, FIELDS, type Field } from "../../core/model/column-map.ts";
import { plainFrame } from "../geojson/collection-frame.ts";
import type { GeoJsonRead } from "../geojson/geojson-read.ts";
import { memberCuts } from "../geojson/member-cuts.ts";
import { MEMBER_PREFIX } from "../geojson/member-texts.ts";
import { readGeoJson } from "../geojson/read-geojson.ts";
import { joinBytes } from "../join-bytes.ts";
import { JsonScanner } from "../json/json-scanner.ts";
import { keyText } from "../json/key-text.ts";
import { fileBytes, fileText, type RevisionFiles } from "./revision-files.ts";

export type TreeField = Field<"trees">;

/** Fields that say who and where people are: left out of a public file unless they are asked for by name. */
export const PRIVATE_FIELDS: readonly TreeField[] = ["owner", "address"];

/** Members of a feature that a public file keeps; all others are the city's own and unmapped. */
const FEATURE_MEMBERS = ["type", "id", "geometry", "bbox"];

/**
 * The trees of a revision as GeoJSON for the public. The rule: a member of a tree's properties is kept when it begins with `bough_`, or
 * when it is the column of a canonical field (by `columns.json`, else by the field's own name) and that field is not `owner` or `address`. `chosen`
 * lists those two where they may be public after all. A column that feeds a private field as well as another one is left out. Everything else
 * goes: unmapped columns, further members of features and of the collection. What is kept is kept byte for byte, under the city's own name.
 *
 * Not looked into: the words inside what is kept. A free text in a mapped column stays, and `bough_why` names roads and buildings as their
 * layers do. Throws Error naming a file that the revision lacks.
 */
export function publicTrees(files: RevisionFiles, chosen: readonly TreeField[] = []): Uint8Array {
  const parsed = parseColumnMap(JSON.parse(fileText(files, "columns.json")));
  if ("faults" in parsed) throw new Error(["columns.json of the plan cannot be used.", ...parsed.faults].join(" "));
  const columns = publicColumns(parsed.columns, chosen);
  const isKept = (name: string): boolean => name.startsWith(MEMBER_PREFIX) || columns.has(name);
  const read = readGeoJson(fileBytes(files, "trees.geojson"), { layer: "trees", file: "trees.geojson" });
  const { head, tail } = plainFrame();
  const pieces: Uint8Array[] = [head];
  read.features.forEach(({ index }, at) => {
    if (at > 0) pieces.push(COMMA);
    addFeature(pieces, read, index, isKept);
  });
  return joinBytes([...pieces, tail]);
}

/** The city's columns that may be public, by the rule of {@link publicTrees}. */
export function publicColumns(map: ColumnMap, chosen: readonly TreeField[]): ReadonlySet<string> {
  const columnOf = (field: TreeField): string => columnSource(map, "trees", field).column;
  const withheld = PRIVATE_FIELDS.filter((field) => !chosen.includes(field));
  const columns = new Set(FIELDS.trees.filter((field) => !withheld.includes(field)).map(columnOf));
  for (const field of withheld) columns.delete(columnOf(field));
  return columns;
}

const COMMA = new TextEncoder().encode(",\n");

function addFeature(
  pieces: Uint8Array[],
  { bytes, ranges }: GeoJsonRead,
  index: number,
  isKept: (name: string) => boolean,
): void {
  const start = ranges.start[index]!;
  const end = ranges.end[index]!;
  const propertiesStart = ranges.propertiesStart[index]!;
  const outer = memberCuts(bytes, start, end, (keyStart, keyEnd) => {
    const name = keyText(bytes, keyStart, keyEnd);
    return !FEATURE_MEMBERS.includes(name) && !(name === "properties" && isAt(bytes, keyEnd, propertiesStart));
  });
  const inner =
    propertiesStart === -1 || bytes[propertiesStart] !== 0x7b
      ? []
      : memberCuts(
          bytes,
          propertiesStart,
          ranges.propertiesEnd[index]!,
          (keyStart, keyEnd) => !isKept(keyText(bytes, keyStart, keyEnd)),
        ).cuts;
  let at = start;
  for (const [from, to] of [...outer.cuts, ...inner].sort((a, b) => a[0] - b[0])) {
    pieces.push(bytes.subarray(at, from));
    at = to;
  }
  pieces.push(bytes.subarray(at, end));
}

/** Whether the value behind a key begins at an offset: of a `properties` member that is repeated only the last is kept. */
function isAt(bytes: Uint8Array, keyEnd: number, valueStart: number): boolean {
  const scanner = new JsonScanner(bytes, keyEnd);
  scanner.skipBlanks();
  scanner.at += 1;
  scanner.skipBlanks();
  return scanner.at === valueStart;
}
