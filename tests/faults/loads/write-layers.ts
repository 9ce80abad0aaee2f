import { createWriteStream } from "node:fs";
import { finished } from "node:stream/promises";

/** In open ocean, where no city can be. */
const ORIGIN = { lonDeg: -139.5, latDeg: 44.25 };
/** Meters in one degree at 44.25 degrees north, from the WGS 84 radii of curvature. */
const METERS_PER_DEGREE = { lon: 79_868.6, lat: 111_117.1 };

/** A position as GeoJSON writes it, so many meters east and north of the origin, to the centimeter. */
export const positionAt = (eastM: number, northM: number): string =>
  `[${(ORIGIN.lonDeg + eastM / METERS_PER_DEGREE.lon).toFixed(7)},${(ORIGIN.latDeg + northM / METERS_PER_DEGREE.lat).toFixed(7)}]`;

export const featureOf = (type: string, coordinates: string, properties: object): string =>
  `{"type":"Feature","properties":${JSON.stringify(properties)},"geometry":{"type":"${type}","coordinates":${coordinates}}}`;

/** Writes a layer of so many features, made one by one; `between` stands between two of them. */
export async function writeLayer(
  path: string,
  count: number,
  feature: (at: number) => string,
  between = ",\n",
): Promise<void> {
  const out = createWriteStream(path);
  let text = '{"type":"FeatureCollection","features":[';
  for (let at = 0; at < count; at += 1) {
    text += (at === 0 ? "" : between) + feature(at);
    if (text.length < 1 << 20) continue;
    if (!out.write(text)) await new Promise<void>((drained) => out.once("drain", () => drained()));
    text = "";
  }
  out.end(`${text}]}\n`);
  await finished(out);
}

/** A tree on a square grid 8 m apart, as many across as down. */
export const gridTree = (at: number, count: number, properties: object): string => {
  const across = Math.ceil(Math.sqrt(count));
  const place = positionAt((at % across) * 8, Math.floor(at / across) * 8);
  return featureOf("Point", place, { id: `T-${at + 1}`, species: "Acer rubrum", ...properties });
};
