/** Longest .prj taken; the longest of the EPSG register's definitions is a few thousand characters. */
const MAX_TEXT = 20_000;

/**
 * The coordinate system's definition in a .prj file, for a `crs` member; null for longitude and latitude on WGS 84, undefined for no
 * file or an empty one.
 */
export function prjSystem(prj: Uint8Array | null): string | null | undefined {
  if (prj === null) return undefined;
  const text = new TextDecoder().decode(prj.subarray(0, MAX_TEXT)).replaceAll("\0", "").trim();
  if (text === "") return undefined;
  const start = text.slice(0, 80).toUpperCase().replaceAll(" ", "");
  const isPlain =
    start.startsWith('GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",') || start.startsWith('GEOGCS["WGS84",DATUM[');
  return isPlain ? null : text;
}
