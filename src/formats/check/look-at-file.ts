import { type FirstLook, firstLook } from "./guess-layer.ts";

/** Bytes at the beginning of a file that its layer is guessed from. */
const LOOKED_AT = 1 << 16;

/** What the beginning of a file shows: geometry types and member names of GeoJSON, column names of CSV; nothing of binary formats. */
export function lookAtFile(bytes: Uint8Array): FirstLook {
  const text = new TextDecoder().decode(bytes.subarray(0, LOOKED_AT)).replace(/^\ufeff/, "");
  const first = text.trimStart().slice(0, 1);
  if (first === "{" || first === "[" || first === "\u001e") return firstLook(text);
  if (text.includes("\u0000")) return { points: 0, lines: 0, polygons: 0, names: new Set() };
  const [header = ""] = text.split(/\r?\n|\r/, 1);
  const names = header
    .slice(0, 4096)
    .split(/[,;\t|]/)
    .map((name) => name.replaceAll('"', "").trim().toLowerCase())
    .filter((name) => name !== "");
  // A table places its rows by two numbers, unless a column holds whole geometries of any kind.
  const isPoints = !names.some((name) => ["wkt", "geometry", "the_geom", "geom", "shape", "geojson"].includes(name));
  return { points: isPoints ? 1 : 0, lines: 0, polygons: 0, names: new Set(names) };
}
