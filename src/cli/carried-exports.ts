import { parseColumnMap } from "../core/inventory/column-map-schema.ts";
import { columnSource } from "../core/model/column-map.ts";
import type { PlanSource } from "../formats/plan/plan-source.ts";
import { ALSO_FORMATS, type AlsoFormat } from "../formats/write/also-files.ts";
import { PRIVATE_FIELDS, type TreeField } from "../formats/write/public-trees.ts";
import { TILES_FILE } from "../map/tiles/tile-layers.ts";
import { inputError } from "./exit-codes.ts";
import type { ExportOptions, ExportRequest } from "./export-options.ts";

/**
 * A request with what the revision before had, where the options say nothing of it: its map tiles, its table files when `--also` is left out, its public
 * trees, with the private fields they show, when `--public` is. Databases are not carried over: a plan does not keep their addresses.
 */
export async function carriedExports(
  asked: ExportRequest,
  options: ExportOptions,
  source: PlanSource,
): Promise<ExportRequest> {
  const formats = options.also === undefined ? await formatsOf(source) : asked.formats;
  const publicFields = options.public === undefined ? await publicFieldsOf(source) : asked.publicFields;
  const withTiles = asked.withTiles || (await source.read(TILES_FILE)) !== null;
  return { ...asked, formats, publicFields, withTiles };
}

async function formatsOf(source: PlanSource): Promise<AlsoFormat[]> {
  const had: AlsoFormat[] = [];
  for (const format of ALSO_FORMATS) {
    const name = format === "gpkg" ? "plan.gpkg" : `trees.${format}`;
    if ((await source.read(name)) !== null) had.push(format);
  }
  return had;
}

/** The private fields whose columns stand in the public trees; null where there are no public trees. */
async function publicFieldsOf(source: PlanSource): Promise<TreeField[] | null> {
  const trees = await source.read("public/trees.geojson");
  const columns = await source.read("columns.json");
  if (trees === null || columns === null) return null;
  const map = parseColumnMap(JSON.parse(new TextDecoder().decode(columns)));
  if ("faults" in map) throw inputError(["columns.json of the plan cannot be used.", ...map.faults].join("\n"));
  const { features } = JSON.parse(new TextDecoder().decode(trees)) as { features: { properties: object | null }[] };
  return PRIVATE_FIELDS.filter((field) => {
    const { column } = columnSource(map.columns, "trees", field);
    return features.some(({ properties }) => properties !== null && Object.hasOwn(properties, column));
  });
}
