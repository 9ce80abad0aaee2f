/**
 * Every State Plane zone of NAD83, in meters, US survey feet and international feet, and every UTM zone of WGS 84, against PROJ.
 *
 * Source: `cs2cs` of the PROJ installed here (Debian: proj-bin), which carries its own copy of the EPSG dataset. Places within each system's
 * area of use are given to it in degrees of the system's own datum, so that no shift between datums is in the comparison; the eastings
 * and northings it answers with are read here. The zones' names come from the EPSG dataset too.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import table from "../../src/formats/crs/epsg-definitions.json";
import { systemOfCode } from "../../src/formats/crs/epsg-systems.ts";

/** A centimeter: our demand; seven decimals of a meter or foot are written by PROJ. */
const TOLERANCE_M = 0.01;
const METERS_PER_DEGREE = 111_320;

const hasProj = spawnSync("cs2cs", ["--version"]).error === undefined;

interface Zone {
  readonly code: number;
  readonly title: string;
}
const zones: readonly Zone[] = table.systems.map((line) => {
  const [code = "", title = ""] = line.split("|");
  return { code: Number(code), title };
});
/** Names of states begin with a capital; `UTM zone`, `BLM` and the like are no State Plane zones. */
const statePlane = zones.filter(({ title }) =>
  /^NAD83 \/ (?!UTM|BLM|Statistics|Conus|Great|Alaska Albers|Canada|MTM|Ontario|Quebec|Teranet|Yukon|BC|WyLAM|Mississippi TM|Virginia Lambert|Texas (State|Centric)|Florida GDL|Oregon (GIC|LCC)|Michigan Oblique|California Albers|Kansas LCC|Maine CS2000|Puerto)/.test(
    title,
  ),
);
const utm = zones.filter(({ title }) => /^WGS 84 \/ UTM zone \d+[NS]$/.test(title));

/** Nine places, from a tenth to nine tenths of the area of use each way. */
function placesOf(code: number): (readonly [number, number])[] {
  const [west, south, east, north] = systemOfCode(code)!.area!;
  const width = (east - west + 360) % 360;
  const along = [0.1, 0.5, 0.9];
  return along.flatMap((x) => along.map((y) => [west + x * width, south + y * (north - south)] as const));
}

function projected(code: number, geographic: string, places: readonly (readonly [number, number])[]): number[][] {
  const input = places.map(([lonDeg, latDeg]) => `${latDeg} ${lonDeg}`).join("\n");
  const output = execFileSync("cs2cs", ["-f", "%.7f", geographic, `EPSG:${code}`], {
    input: `${input}\n`,
    encoding: "utf8",
  });
  return output
    .trim()
    .split("\n")
    .map((line) => line.trim().split(/\s+/).map(Number));
}

function worstM(code: number, geographic: string): number {
  const places = placesOf(code);
  const { toLonLat } = systemOfCode(code)!;
  return Math.max(
    ...projected(code, geographic, places).map(([x, y], at) => {
      const [lonDeg, latDeg] = places[at]!;
      const [gotLonDeg, gotLatDeg] = toLonLat!(x!, y!);
      const apartDeg = ((gotLonDeg - lonDeg + 540) % 360) - 180;
      return Math.hypot(apartDeg * Math.cos((latDeg * Math.PI) / 180), gotLatDeg - latDeg) * METERS_PER_DEGREE;
    }),
  );
}

describe.skipIf(!hasProj)(`against the cs2cs installed here${hasProj ? "" : " (skipped: no proj-bin)"}`, () => {
  it("all State Plane zones of NAD83, in their own unit, within a centimeter", () => {
    // Guards the choice by name: each zone is in the EPSG dataset in meters, most in feet as well.
    expect(statePlane.length).toBeGreaterThan(200);
    const off = statePlane.map(({ code, title }) => [worstM(code, "EPSG:4269"), code, title] as const);
    expect(off.filter(([m]) => !(m < TOLERANCE_M))).toEqual([]);
  }, 120_000);

  it("all 120 UTM zones of WGS 84 within a centimeter", () => {
    expect(utm.length).toBe(120);
    const off = utm.map(({ code, title }) => [worstM(code, "EPSG:4326"), code, title] as const);
    expect(off.filter(([m]) => !(m < TOLERANCE_M))).toEqual([]);
  }, 120_000);
});
