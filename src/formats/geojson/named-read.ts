import type { ColumnMap } from "../../core/model/column-map.ts";
import { featureName, mappedId, nameInFile } from "../../core/model/feature-name.ts";
import type { Finding } from "../../core/model/finding.ts";
import { isObject } from "../json/own-member.ts";
import { utf8Text } from "../json/utf8-text.ts";
import { exactProperties } from "./exact-numbers.ts";
import type { GeoJsonRead } from "./geojson-read.ts";

const OPENING_BRACE = 0x7b;

/**
 * A file as read, its findings naming features as later stages name them: by the column that feeds `id`. The reader has to make them
 * before it is known which column that is.
 *
 * `idOfTree` gives a tree's id in the plan by its ordinal. Where two features have one id of their own, and a doubt about one of them
 * does not say which, the name stays.
 */
export function namedRead(
  read: GeoJsonRead,
  columns: ColumnMap,
  idOfTree: ReadonlyMap<number, string> = new Map(),
): GeoJsonRead {
  const setAside = read.setAside.map((one) => {
    const properties = propertiesOf(read, one.ordinal - read.firstOrdinal);
    const name = properties === null ? null : mappedId(columns, read.layer, properties);
    return name === null ? one : { ...one, finding: { ...one.finding, feature: name } };
  });
  return { ...read, setAside, findings: namedDoubts(read, columns, idOfTree) };
}

function namedDoubts(read: GeoJsonRead, columns: ColumnMap, idOfTree: ReadonlyMap<number, string>): readonly Finding[] {
  const wanted = new Set(read.findings.flatMap(({ feature }) => (feature === null ? [] : [feature])));
  if (wanted.size === 0) return read.findings;
  const names = new Map<string, string | null>();
  for (const feature of read.features) {
    const given = nameInFile(feature.id, feature.index);
    if (!wanted.has(given)) continue;
    const own = featureName(columns, feature);
    const treeId = read.layer === "trees" && own !== `#${feature.index}` ? idOfTree.get(feature.ordinal) : undefined;
    names.set(given, names.has(given) ? null : (treeId ?? own));
  }
  return read.findings.map((finding) => {
    const name = finding.feature === null ? null : (names.get(finding.feature) ?? null);
    return name === null ? finding : { ...finding, feature: name };
  });
}

/** The properties of a feature that is not kept in memory, read from its bytes again; null where it has none. */
function propertiesOf({ bytes, ranges }: GeoJsonRead, index: number): Readonly<Record<string, unknown>> | null {
  const start = ranges.propertiesStart[index] ?? -1;
  if (start < 0 || bytes[start] !== OPENING_BRACE) return null;
  const end = ranges.propertiesEnd[index]!;
  const properties: unknown = JSON.parse(utf8Text(bytes, start, end));
  return isObject(properties) ? exactProperties(properties, bytes, start, end) : null;
}
