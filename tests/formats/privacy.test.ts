import { inflateSync } from "node:zlib";
import { unzipSync } from "fflate";
import { parquetReadObjects } from "hyparquet";
import { beforeAll, describe, expect, test } from "vitest";
import { loadFonts } from "../../src/cli/fonts.ts";
import { packetContent } from "../../src/core/packet/packet-content.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { buildPacket } from "../../src/formats/packet/build-packet.ts";
import { makePlan } from "../../src/formats/plan/make-plan.ts";
import { type OpenedPlan, openPlan } from "../../src/formats/plan/open-plan.ts";
import type { LayerFile } from "../../src/formats/plan/plan-request.ts";
import { memorySource } from "../../src/formats/plan/plan-source.ts";
import { ALSO_FORMATS, alsoFiles } from "../../src/formats/write/also-files.ts";
import { publicFiles } from "../../src/formats/write/public-files.ts";
import type { RevisionFiles } from "../../src/formats/write/revision-files.ts";
import { treeCardModel } from "../../src/map/card/tree-card-model.ts";
import { createSources } from "../../src/map/create-sources.ts";
import { DEFAULT_WORDS } from "../../src/map/words.ts";

// Columns that feed no field hold a word that occurs nowhere else, in every layer, among the properties and beside them. What is handed on
// is unpacked and searched for it. The plan's own files keep it: nothing of a city's is lost.

const SECRET = "Xylophanes.Quimby@city.example";
const ORIGIN = [-139.5, 44.25] as const;
const M = 1 / 111_000;

const at = (eastM: number, northM: number): [number, number] => [
  ORIGIN[0] + (eastM * M) / 0.716,
  ORIGIN[1] + northM * M,
];

const feature = (geometry: object, properties: object) => ({
  type: "Feature",
  inspector: SECRET,
  properties: { ...properties, INSPECTOR: SECRET, "staff e-mail": { to: SECRET } },
  geometry,
});

const layer = (name: LayerFile["layer"], features: readonly object[]): LayerFile => ({
  layer: name,
  name: `${name}.geojson`,
  filter: null,
  bytes: new TextEncoder().encode(JSON.stringify({ type: "FeatureCollection", contact: SECRET, features })),
});

/** Twelve trees that hang low over a street with a walk, a house and a line beside it; the last has impossible sizes, and one no position. */
const FILES: readonly LayerFile[] = [
  layer("trees", [
    ...Array.from({ length: 12 }, (_, row) =>
      feature(
        { type: "Point", coordinates: at(row * 9, 5.5) },
        {
          id: `T-${row}`,
          species: row % 2 === 0 ? "Acer rubrum" : "Quercus bicolor",
          dbh: 38,
          height: row === 11 ? 2 : 11,
          crown_base: 1.8,
          crown_radius: 4.2,
          street: "Chapel Street",
        },
      ),
    ),
    feature({ type: "Point", coordinates: [] }, { id: "T-none" }),
  ]),
  layer("roads", [
    feature(
      { type: "LineString", coordinates: [at(-40, 0), at(140, 0)] },
      { id: "R-1", name: "Chapel Street", class: "local-residential", lanes: 2, width: 8 },
    ),
  ]),
  layer("paths", [
    feature({ type: "LineString", coordinates: [at(-40, 8), at(140, 8)] }, { id: "P-1", class: "walkway", width: 1.8 }),
  ]),
  layer("buildings", [
    feature(
      { type: "Polygon", coordinates: [[at(0, 11), at(60, 11), at(60, 20), at(0, 20), at(0, 11)]] },
      { id: "B-1", height: 7 },
    ),
  ]),
  layer("signs", [feature({ type: "Point", coordinates: at(30, 5) }, { id: "S-1", kind: "stop", facing: 90 })]),
  layer("conductors", [
    feature(
      { type: "LineString", coordinates: [at(-40, 6), at(140, 6)] },
      { id: "C-1", voltage: 12_000, attachment_height_1: 10, attachment_height_2: 10, sag: 0.6 },
    ),
  ]),
];

let files: RevisionFiles;
let opened: OpenedPlan;

beforeAll(async () => {
  const output = await makePlan(
    {
      revision: 1,
      files: FILES,
      columns: {},
      standardJson: null,
      options: {
        asOf: isoDate("2026-11-02"),
        units: "us",
        drive: "right",
        place: { hardinessZone: null, region: null },
      },
      crs: null,
      withZones: true,
    },
    () => {},
  );
  files = output.files;
  opened = await openPlan(memorySource(files));
}, 120_000);

const holdsSecret = (bytes: Uint8Array): boolean =>
  Buffer.from(bytes).includes(SECRET) || Buffer.from(bytes).includes(Buffer.from(SECRET, "utf16le"));

/** All bytes and texts of an output, archives, compressed streams and compressed tables unpacked, by the name of what they were in. */
async function unpacked(name: string, bytes: Uint8Array): Promise<[name: string, bytes: Uint8Array][]> {
  if (name.endsWith(".zip")) {
    const inner = await Promise.all(
      Object.entries(unzipSync(bytes)).map(([path, content]) => unpacked(`${name}/${path}`, content)),
    );
    return inner.flat();
  }
  if (name.endsWith(".pdf"))
    return [[name, bytes], ...pdfStreams(bytes).map((one): [string, Uint8Array] => [name, one])];
  if (!name.endsWith(".parquet")) return [[name, bytes]];
  const rows = await parquetReadObjects({ file: bytes.slice().buffer as ArrayBuffer });
  const text = JSON.stringify(rows, (_key, value) => (typeof value === "bigint" ? String(value) : value));
  return [
    [name, bytes],
    [name, new TextEncoder().encode(text)],
  ];
}

/** The deflated streams of a PDF, inflated; those that are not deflated stand in its bytes as they are. */
function pdfStreams(bytes: Uint8Array): Uint8Array[] {
  const pdf = Buffer.from(bytes);
  const streams: Uint8Array[] = [];
  for (let at = pdf.indexOf("stream\n"); at !== -1; at = pdf.indexOf("stream\n", at + 1)) {
    try {
      streams.push(inflateSync(pdf.subarray(at + 7)));
    } catch {
      // No deflated stream begins here.
    }
  }
  return streams;
}

async function expectClean(outputs: Iterable<readonly [string, Uint8Array]>): Promise<void> {
  for (const [name, bytes] of outputs) {
    for (const [inner, content] of await unpacked(name, bytes)) expect(holdsSecret(content), inner).toBe(false);
  }
}

/** Files of a revision that hold the city's own features, whole: they stay in the plan's folder. */
const isOfTheCity = (name: string): boolean =>
  name === "trees.geojson" || name === "set-aside.geojson" || name.startsWith("layer-");

describe("columns that feed no field", () => {
  test("stay with the city's own features, so that the search below can find them", () => {
    const kept = [...files.keys()].filter(isOfTheCity);
    expect(kept.length).toBeGreaterThan(5);
    expect(kept.filter((name) => holdsSecret(files.get(name)!))).toEqual(kept);
  });

  test("are in no other file of the plan", async () => {
    await expectClean([...files].filter(([name]) => !isOfTheCity(name)));
  });

  test("are in no packet: sheets, GeoJSON, CSV, GPX, KML, manifest", async () => {
    const fonts = await loadFonts();
    const { plan } = opened;
    expect(plan.zones.length).toBeGreaterThan(0);
    for (const zone of plan.zones) {
      const packet = await buildPacket(plan, zone, usCommon(), fonts, { paper: "letter" });
      expect(Object.keys(unzipSync(packet.bytes)).length).toBeGreaterThan(5);
      await expectClean([["packet.zip", packet.bytes]]);
      // The sheets write glyphs, not letters: what they draw is searched before it is drawn.
      expect(JSON.stringify(packetContent(plan, zone, usCommon()))).not.toContain(SECRET);
    }
  });

  test("are in none of the further formats, unless all columns are asked for", async () => {
    const mapped = await alsoFiles(files, ALSO_FORMATS, "mapped");
    const added = (all: RevisionFiles) => [...all].filter(([name]) => !files.has(name));
    expect(added(mapped.files).map(([name]) => name)).toContain("plan.gpkg");
    await expectClean(added(mapped.files));
    // The same search finds them where all are asked for, in each format.
    const all = await alsoFiles(files, ALSO_FORMATS, "all");
    for (const name of ["plan.gpkg", "trees.fgb", "trees.parquet", "trees.csv"]) {
      const parts = await unpacked(name, all.files.get(name)!);
      expect(
        parts.some(([, content]) => holdsSecret(content)),
        name,
      ).toBe(true);
    }
  });

  test("are in no public file", async () => {
    const all = await publicFiles(files, ["owner", "address"], ALSO_FORMATS);
    const added = [...all].filter(([name]) => name.startsWith("public/"));
    expect(added).toHaveLength(1 + ALSO_FORMATS.length);
    await expectClean(added);
  });

  test("are on no card and in no source of the map", () => {
    for (const tree of opened.plan.trees) {
      const card = treeCardModel(opened, tree.id, "us", DEFAULT_WORDS);
      expect(JSON.stringify(card)).not.toContain(SECRET);
      expect(card!.columns.unmapped).toContain("INSPECTOR");
    }
    expect(JSON.stringify(createSources(opened, {}))).not.toContain(SECRET);
  });
});
