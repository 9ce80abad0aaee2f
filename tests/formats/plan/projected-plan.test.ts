import { readFileSync } from "node:fs";
import proj4 from "proj4";
import { describe, expect, it } from "vitest";
import { parseColumnMap } from "../../../src/core/inventory/column-map-schema.ts";
import type { Layer } from "../../../src/core/model/terms.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";
import type { PlanOutput } from "../../../src/formats/plan/plan-request.ts";
import { RefusedInput } from "../../../src/formats/plan/refused-input.ts";

const FOLDER = "tests/fixtures/ubc/";
const FILES: readonly (readonly [Layer, string])[] = [
  ["trees", "trees"],
  ["buildings", "buildings"],
  ["roads", "road-areas"],
  ["paths", "walkway-areas"],
];
/** BC Albers in US survey feet: a real definition with a unit that must be taken from the text. */
const ALBERS_FT =
  "+proj=aea +lat_0=45 +lon_0=-126 +lat_1=50 +lat_2=58.5 +x_0=1000000 +y_0=0 +datum=NAD83 +units=us-ft +no_defs";

const read = (name: string): unknown => JSON.parse(readFileSync(`${FOLDER}${name}`, "utf8"));

function projected(value: unknown, forward: (position: number[]) => number[]): unknown {
  if (!Array.isArray(value)) return value;
  return typeof value[0] === "number" ? forward(value as number[]) : value.map((part) => projected(part, forward));
}

interface Collection {
  readonly features: readonly { readonly geometry: { readonly coordinates: unknown } }[];
}

async function plan(crs: string | null, definition: string | null): Promise<PlanOutput> {
  const columns = parseColumnMap(read("columns.json"));
  if ("faults" in columns) throw new Error(columns.faults.join());
  const forward = definition === null ? null : proj4("+proj=longlat +datum=WGS84", definition).forward;
  const files = FILES.map(([layer, name]) => {
    const json = read(`${name}.geojson`) as Collection;
    const features = json.features.map((feature) =>
      forward === null
        ? feature
        : {
            ...feature,
            geometry: { ...feature.geometry, coordinates: projected(feature.geometry.coordinates, forward) },
          },
    );
    const bytes = new TextEncoder().encode(JSON.stringify({ ...json, features }));
    return { layer, name: `${name}.geojson`, filter: null, bytes };
  });
  return makePlan(
    {
      revision: 1,
      files,
      columns: columns.columns,
      standardJson: null,
      options: {
        asOf: isoDate("2026-06-15"),
        units: "us",
        drive: "right",
        place: { region: null, hardinessZone: null },
      },
      crs,
      withZones: false,
    },
    () => {},
  );
}

const conflicts = (output: PlanOutput): string[] => {
  const { features } = JSON.parse(new TextDecoder().decode(output.files.get("conflicts.geojson"))) as {
    features: { id?: string; properties: Record<string, unknown> }[];
  };
  return features.map(({ id, properties }) => `${id ?? properties.conflict_id} ${properties.kind}`);
};

describe("a plan of a campus", () => {
  it("finds the same conflicts from feet in another coordinate system as from longitude and latitude", async () => {
    const degrees = await plan(null, null);
    const feet = await plan(ALBERS_FT, ALBERS_FT);
    expect(conflicts(degrees).length).toBeGreaterThan(10);
    expect(conflicts(feet)).toEqual(conflicts(degrees));
    expect(feet.findings.map(({ code }) => code)).toEqual(expect.arrayContaining(["reprojected", "datum-not-shifted"]));
    expect(feet.findings.map(({ code }) => code)).not.toContain("datums-mixed");
  });

  it("is refused in one sentence for a coordinate system nobody knows", async () => {
    await expect(plan("EPSG:99999", null)).rejects.toThrow(RefusedInput);
    await expect(plan("EPSG:99999", null)).rejects.toThrow("Give its EPSG code");
  });
});
