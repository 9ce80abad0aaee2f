import { describe, expect, it } from "vitest";
import type { GeoJsonRead } from "../../../src/formats/geojson/geojson-read.ts";
import { readGeoJson } from "../../../src/formats/geojson/read-geojson.ts";
import { setAsideCollection } from "../../../src/formats/geojson/set-aside-collection.ts";
import { spliceFeatures } from "../../../src/formats/geojson/splice-features.ts";
import { findJsonFault } from "../../../src/formats/json/find-json-fault.ts";
import { bytesOf, collection, point, textOf } from "./reading.ts";

/** `DOCUMENTS=1000000` for more of them. */
const COUNT = Number(process.env.DOCUMENTS ?? 20_000);
/** A few milliseconds a document where the machine is busy. */
const TIMEOUT_MS = Math.max(120_000, COUNT * 12);
const SEEDS = [
  collection(
    point(-123.1, 49.2, '{"id":9007199254740993,"name":"Caf\u00e9 \\u00e9 \\"x\\"","h":[1,2.5e1]}'),
    point(1, 2, "null"),
    "null",
  ),
  `{"crs":null,"type":"FeatureCollection","name":"t","features":[ ${point(1, 2)} ,\n${point(3, 4, '{"bough_due":1,"a":{}}')}],"bbox":[1,2,3,4]}\n`,
  `${point(1, 2)}\n${point(3, 4)}\n`,
  point(1, 2, '{"a":true,"b":false}'),
  `\ufeff${collection()}`,
].map(bytesOf);
const PIECES = [
  "{",
  "}",
  "[",
  "]",
  ",",
  ":",
  '"',
  "\\",
  "0",
  "-",
  "e",
  ".",
  "\n",
  " ",
  "null",
  '"id":1,',
  "\u00e9",
  "\u001e",
].map(bytesOf);

const STRUCTURE = [..."{}[],:"].map((letter) => letter.charCodeAt(0));

/** Small seeded generator (Tommy Ettinger's mulberry32, public domain). */
function randomFrom(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) % below;
  };
}

/** One to three of: a bit flipped, a run cut out, a run doubled, a piece put in, a byte replaced, the end cut off. */
function mutate(bytes: Uint8Array, random: (below: number) => number): Uint8Array {
  let list = [...bytes];
  for (let times = 1 + random(3); times > 0; times -= 1) {
    const at = placeIn(list, random);
    const piece = [...PIECES[random(PIECES.length)]!];
    const kind = random(6);
    if (kind === 0 && at < list.length) list[at] = list[at]! ^ (1 << random(8));
    else if (kind === 1) list.splice(at, 1 + random(4));
    else if (kind === 2) list.splice(at, 0, ...list.slice(at, at + random(30)));
    else if (kind === 3) list.splice(at, 0, ...piece);
    else if (kind === 4) list.splice(at, 1, ...piece);
    else if (random(20) === 0) list = list.slice(0, at);
  }
  return Uint8Array.from(list);
}

/** Any place, or as often one beside a bracket or a comma, where damage changes the structure. */
function placeIn(list: readonly number[], random: (below: number) => number): number {
  if (random(2) === 0) return random(list.length + 1);
  const structural = list.flatMap((byte, index) => (STRUCTURE.includes(byte) ? [index, index + 1] : []));
  return structural[random(structural.length)] ?? 0;
}

function parseOrNull(bytes: Uint8Array): { value: unknown } | null {
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return { value: JSON.parse(text) };
  } catch {
    return null;
  }
}

/** A sequence is no one JSON text: each of its values must be. */
function isAccepted(bytes: Uint8Array, read: GeoJsonRead): boolean {
  if (read.form !== "sequence") return parseOrNull(bytes) !== null;
  return Array.from(read.ranges.start, (start, index) => bytes.subarray(start, read.ranges.end[index])).every(
    (value) => parseOrNull(value) !== null,
  );
}

/** Whole numbers past 2^53 are kept as text; as numbers they are what JSON.parse gives. */
const rounded = (properties: Readonly<Record<string, unknown>>, like: Readonly<Record<string, unknown>>): unknown =>
  Object.fromEntries(
    Object.entries(properties).map(([key, value]) => [key, typeof like[key] === "number" ? Number(value) : value]),
  );

describe(`${COUNT} damaged files, seed 1`, () => {
  it("never crash, are accepted exactly when they are JSON, and give what JSON.parse gives", {
    timeout: TIMEOUT_MS,
  }, () => {
    const random = randomFrom(1);
    let accepted = 0;
    for (let run = 0; run < COUNT; run += 1) {
      const bytes = mutate(SEEDS[run % SEEDS.length]!, random);
      const read = readGeoJson(bytes, { layer: "trees", file: "damaged.geojson" });
      const isSyntaxFault = read.fault?.code === "bad-json" || read.fault?.code === "bad-utf8";
      const label = `run ${run}: ${new TextDecoder().decode(bytes)}`;
      expect(!isSyntaxFault, label).toBe(isAccepted(bytes, read));
      if (read.fault?.code === "bad-json") expect(findJsonFault(bytes, 0), label).not.toBeNull();
      if (read.fault !== null) continue;
      accepted += 1;
      expect(read.counts.used + read.counts.setAside, label).toBe(read.counts.features);
      expect(read.ranges.count, label).toBe(read.counts.features);
      for (const { index, properties } of read.features) {
        if (read.form === "geometry") continue;
        const slice = bytes.subarray(read.ranges.start[index], read.ranges.end[index]);
        const like = (parseOrNull(slice)!.value as { properties?: Record<string, unknown> | null }).properties ?? {};
        expect(rounded(properties, like), label).toEqual(like);
      }
      const out = textOf(spliceFeatures([read], () => new Map([["bough_x", 1]])));
      expect(JSON.parse(out).features, label).toHaveLength(read.counts.used);
      const aside = textOf(setAsideCollection([read], read.setAside));
      expect(JSON.parse(aside).features, label).toHaveLength(read.counts.setAside);
    }
    // Enough of both kinds for the test to mean something.
    expect(accepted).toBeGreaterThan(COUNT / 20);
    expect(accepted).toBeLessThan(COUNT - COUNT / 20);
  });
});
