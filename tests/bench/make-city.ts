import type { WriteStream } from "node:fs";
import { createWriteStream } from "node:fs";
import { finished } from "node:stream/promises";
import { type Random, randomStream } from "../../sample-geojson/make/random.ts";
import { SPECIES } from "../../sample-geojson/make/species.ts";

/** What a bench city holds. Every name, place and size in it is invented. */
export interface CityShape {
  readonly trees: number;
  readonly buildings: number;
  readonly roads: number;
}

export interface CityOptions {
  /** Trees, and as many buildings; a road for every twenty. */
  readonly trees: number;
  /** Decimals of the coordinates: 7 is about a centimeter, 15 is what unrounded exports write. */
  readonly decimals: number;
  /** Gives another city of the same shape. */
  readonly seed: number;
}

/** Files of a city by layer. */
export interface CityFiles {
  readonly trees: string;
  readonly buildings: string;
  readonly roads: string;
}

/** From one street's middle to the next, in meters. */
const BLOCK_M = 130;
/** From a street's middle to its curb. */
const CURB_M = 4.6;
const PER_BLOCK = 40;
const PER_SIDE = PER_BLOCK / 4;
/** In open ocean, where no city can be. */
const ORIGIN = { lonDeg: -139.5, latDeg: 44.25 };
// Meters in one degree at 44.25 degrees north, from the WGS 84 radii of curvature.
const METERS_PER_DEGREE = { lon: 79_868.6, lat: 111_117.1 };

const OWNERS = ["city", "city", "city", "private", "county"];
const CONDITIONS = ["good", "good", "fair", "fair", "poor", "dead"];

type Point = readonly [xM: number, yM: number];

/**
 * Writes a seeded city on a grid of streets: rows of houses of six corners about every block, street trees along the curbs and yard trees
 * behind, in sizes from whip to veteran. The same options give the same bytes.
 */
export async function makeCity(files: CityFiles, options: CityOptions): Promise<CityShape> {
  const blocksAcross = Math.ceil(Math.sqrt(options.trees / PER_BLOCK));
  const roads = await writeCollection(files.roads, roadFeatures(blocksAcross, options));
  const trees = await writeCollection(files.trees, blockFeatures(blocksAcross, options, "tree"));
  const buildings = await writeCollection(files.buildings, blockFeatures(blocksAcross, options, "building"));
  return { trees, buildings, roads };
}

async function writeCollection(path: string, features: Iterable<string>): Promise<number> {
  const out = createWriteStream(path);
  let count = 0;
  let text = '{"type":"FeatureCollection","features":[\n';
  for (const feature of features) {
    text += count === 0 ? feature : `,\n${feature}`;
    count += 1;
    if (text.length < 1 << 20) continue;
    await write(out, text);
    text = "";
  }
  await write(out, `${text}\n]}\n`);
  out.end();
  await finished(out);
  return count;
}

const write = (out: WriteStream, text: string): Promise<void> =>
  new Promise((resolve, reject) => out.write(text, (error) => (error ? reject(error) : resolve())));

function* roadFeatures(blocksAcross: number, { decimals, seed }: CityOptions): Generator<string> {
  const random = randomStream(`roads ${seed}`);
  let id = 0;
  for (const isEastward of [true, false]) {
    for (let street = 0; street <= blocksAcross; street += 1) {
      const isArterial = street % 8 === 4;
      const name = `${isEastward ? "Avenue" : "Street"} ${street + 1}`;
      for (let block = 0; block < blocksAcross; block += 1) {
        id += 1;
        const [along, next, aside] = [block * BLOCK_M, (block + 1) * BLOCK_M, street * BLOCK_M];
        const line: Point[] = isEastward
          ? [
              [along, aside],
              [next, aside],
            ]
          : [
              [aside, along],
              [aside, next],
            ];
        const properties = {
          id: `R-${id}`,
          name,
          class: isArterial ? "minor-arterial" : "local-residential",
          speed: isArterial ? "35 mph" : "25 mph",
          lanes: 2,
          width: random.chance(0.7) ? 2 * CURB_M : null,
          oneway: "no",
        };
        yield feature(properties, "LineString", `[${line.map((point) => position(point, decimals)).join(",")}]`);
      }
    }
  }
}

function* blockFeatures(blocksAcross: number, options: CityOptions, what: "tree" | "building"): Generator<string> {
  const random = randomStream(`${what}s ${options.seed}`);
  let made = 0;
  for (let row = 0; row < blocksAcross; row += 1) {
    for (let column = 0; column < blocksAcross; column += 1) {
      for (let at = 0; at < PER_BLOCK; at += 1) {
        if (made === options.trees) return;
        made += 1;
        const side = Math.floor(at / PER_SIDE);
        // Along the side and inward from its street's middle, then turned to where the side lies.
        const place = (alongM: number, inwardM: number): Point => {
          const [x, y] = [
            [alongM, inwardM],
            [BLOCK_M - inwardM, alongM],
            [BLOCK_M - alongM, BLOCK_M - inwardM],
            [inwardM, BLOCK_M - alongM],
          ][side]! as [number, number];
          return [column * BLOCK_M + x, row * BLOCK_M + y];
        };
        const alongM = 14 + (at % PER_SIDE) * ((BLOCK_M - 28) / PER_SIDE);
        yield what === "tree"
          ? treeFeature(made, place, alongM, at, random, options)
          : buildingFeature(made, place, alongM, random, options);
      }
    }
  }
}

function treeFeature(
  number: number,
  place: (alongM: number, inwardM: number) => Point,
  alongM: number,
  at: number,
  random: Random,
  { decimals }: CityOptions,
): string {
  const isStreetTree = at % 10 < 7;
  const species = random.pick(SPECIES);
  const grown = random.between(0.12, 1.05);
  const heightM = species.matureHeightM * Math.sqrt(grown);
  const properties = {
    id: `T-${number}`,
    species: species.name,
    common_name: species.common,
    dbh: Math.max(3, Math.round(species.matureDbhCm * grown)),
    height: random.chance(0.8) ? Number(heightM.toFixed(1)) : null,
    crown_base: random.chance(0.6) ? Number((heightM * random.between(0.1, 0.35)).toFixed(1)) : null,
    crown_spread: random.chance(0.7) ? Number((2 * species.matureRadiusM * Math.sqrt(grown)).toFixed(1)) : null,
    condition: random.pick(CONDITIONS),
    planted: `${1960 + Math.floor(60 * (1 - grown / 1.05))}-04-15`,
    last_pruned: random.chance(0.3) ? "2019-02-11" : null,
    owner: random.pick(OWNERS),
  };
  const inwardM = isStreetTree ? CURB_M + random.between(0.6, 2.2) : random.between(26, 55);
  return feature(properties, "Point", position(place(alongM + random.between(-3, 3), inwardM), decimals));
}

function buildingFeature(
  number: number,
  place: (alongM: number, inwardM: number) => Point,
  alongM: number,
  random: Random,
  { decimals }: CityOptions,
): string {
  const frontM = CURB_M + random.between(7, 11);
  const wideM = random.between(6.5, 9);
  const deepM = random.between(8, 12);
  const [left, right, back] = [alongM + 0.4, alongM + 0.4 + wideM, frontM + deepM];
  const ring: Point[] = [
    place(left, frontM),
    place(right, frontM),
    place(right, frontM + deepM * 0.6),
    place(left + wideM * 0.55, frontM + deepM * 0.6),
    place(left + wideM * 0.55, back),
    place(left, back),
  ];
  ring.push(ring[0]!);
  const properties = {
    id: `B-${number}`,
    height: random.chance(0.8) ? Number(random.between(4, 11).toFixed(1)) : null,
    levels: random.chance(0.9) ? 1 + Math.floor(random.between(0, 3)) : null,
  };
  return feature(properties, "Polygon", `[[${ring.map((point) => position(point, decimals)).join(",")}]]`);
}

const feature = (properties: object, type: string, coordinates: string): string =>
  `{"type":"Feature","properties":${JSON.stringify(properties)},"geometry":{"type":"${type}","coordinates":${coordinates}}}`;

function position([xM, yM]: Point, decimals: number): string {
  const lonDeg = ORIGIN.lonDeg + xM / METERS_PER_DEGREE.lon;
  const latDeg = ORIGIN.latDeg + yM / METERS_PER_DEGREE.lat;
  return `[${lonDeg.toFixed(decimals)},${latDeg.toFixed(decimals)}]`;
}
