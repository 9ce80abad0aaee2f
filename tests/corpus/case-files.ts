import type { Layer } from "../../src/core/model/terms.ts";
import type { BadInputCase } from "./case.ts";

/** Properties of the good trees: every size measured, so that no other tree changes what is made of them. */
const GOOD_TREE = { species: "Acer rubrum", dbh: 30, height: 12, crown_base: 3, crown_spread: 8 };

const feature = (id: string, properties: object, type: string, coordinates: unknown): string =>
  JSON.stringify({ type: "Feature", id, properties, geometry: { type, coordinates } });

/** The two good features of a layer, each as a line of the file. Those around the trees stand beside them. */
export const GOOD: Readonly<Record<Layer, readonly [string, string]>> = {
  trees: [
    feature("good-1", GOOD_TREE, "Point", [-89.4, 43.07]),
    feature("good-2", GOOD_TREE, "Point", [-89.4002, 43.0701]),
  ],
  buildings: [building("good-1", -89.39995), building("good-2", -89.4)],
  roads: [
    feature("good-1", { class: "residential" }, "LineString", [
      [-89.401, 43.06996],
      [-89.399, 43.06996],
    ]),
    feature("good-2", { class: "residential" }, "LineString", [
      [-89.401, 43.0702],
      [-89.399, 43.0702],
    ]),
  ],
  paths: [
    feature("good-1", { class: "sidewalk" }, "LineString", [
      [-89.401, 43.07001],
      [-89.399, 43.07001],
    ]),
    feature("good-2", { class: "sidewalk" }, "LineString", [
      [-89.401, 43.07015],
      [-89.399, 43.07015],
    ]),
  ],
  signs: [
    feature("good-1", { kind: "stop" }, "Point", [-89.4003, 43.07]),
    feature("good-2", { kind: "speed limit" }, "Point", [-89.3997, 43.07]),
  ],
  signals: [feature("good-1", {}, "Point", [-89.4003, 43.07]), feature("good-2", {}, "Point", [-89.3997, 43.07])],
  conductors: [
    feature("good-1", { voltage: 12470, attachment_height_1: 10, attachment_height_2: 10, sag: 0.5 }, "LineString", [
      [-89.401, 43.07002],
      [-89.399, 43.07002],
    ]),
    feature("good-2", { voltage: 240, attachment_height_1: 7, attachment_height_2: 7, sag: 0.5 }, "LineString", [
      [-89.401, 43.07008],
      [-89.399, 43.07008],
    ]),
  ],
};

function building(id: string, lonDeg: number): string {
  const [west, east, south, north] = [lonDeg, lonDeg + 1e-4, 43.07003, 43.0701];
  return feature(id, { height: 8 }, "Polygon", [
    [
      [west, south],
      [east, south],
      [east, north],
      [west, north],
      [west, south],
    ],
  ]);
}

const encoder = new TextEncoder();

/** The file of a case: good features around the odd ones, each on its line. */
export function caseFile({ layer, odd, whole }: BadInputCase): Uint8Array {
  const [first, second] = GOOD[layer];
  if (odd !== undefined) {
    const between = typeof odd === "string" ? [odd] : odd;
    return encoder.encode(collection([first, ...between, second]));
  }
  if (whole === "SEQUENCE") return encoder.encode(`${first}\n${second}\n`);
  const text = typeof whole === "string" ? encoder.encode(whole) : whole!;
  return withGood(text, `${first},\n${second}`);
}

/** A collection of features, each on a line of its own. */
export const collection = (features: readonly string[]): string =>
  `{"type":"FeatureCollection","features":[\n${features.join(",\n")}\n]}\n`;

function withGood(bytes: Uint8Array, good: string): Uint8Array {
  const at = bytes.findIndex((_, start) =>
    ["G", "O", "O", "D"].every((letter, offset) => bytes[start + offset] === letter.charCodeAt(0)),
  );
  if (at === -1) return bytes;
  return Uint8Array.from([...bytes.subarray(0, at), ...encoder.encode(good), ...bytes.subarray(at + 4)]);
}
