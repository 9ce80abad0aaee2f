import { type AlsoFormat, asOf, writeTable } from "./also-files.ts";
import { publicTrees, type TreeField } from "./public-trees.ts";
import { fileBytes, type RevisionFiles } from "./revision-files.ts";
import { treesTable } from "./trees-table.ts";
import { writeGeoPackage } from "./write-geopackage.ts";

/**
 * A revision's files with its trees for the public beside them: `public/trees.geojson` by the rule of `publicTrees`, and the same trees in each of the formats
 * asked for, `public/trees.gpkg` and so on. Conflicts, zones and findings are not published: they name what belongs to others.
 */
export async function publicFiles(
  files: RevisionFiles,
  chosen: readonly TreeField[],
  formats: readonly AlsoFormat[],
): Promise<RevisionFiles> {
  const trees = publicTrees(files, chosen);
  const all = new Map(files);
  all.set("public/trees.geojson", trees);
  if (formats.length === 0) return all;
  const { table } = treesTable(trees, fileBytes(files, "prescriptions.jsonl"));
  for (const format of formats) {
    const bytes = format === "gpkg" ? await writeGeoPackage([table], asOf(files)) : await writeTable(table, format);
    all.set(`public/trees.${format}`, bytes);
  }
  return all;
}
