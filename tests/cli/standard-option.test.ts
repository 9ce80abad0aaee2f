import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { boughline } from "../../src/cli/program.ts";
import { readStandard } from "../../src/cli/standard-option.ts";
import { resolveStandard } from "../../src/core/standard/resolve-standard.ts";
import { SHIPPED_STANDARDS, shippedStandard } from "../../src/core/standard/shipped-standards.ts";
import type { IsoDate } from "../../src/core/units/calendar.ts";
import { makePlan } from "../../src/formats/plan/make-plan.ts";

const folder = mkdtempSync(join(tmpdir(), "boughline-standard-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const CITY = {
  extends: "us-common",
  id: "example",
  title: "Example",
  rules: { "walkway-headroom": { minimum: "78 in" } },
};
const TREES = JSON.stringify({
  type: "FeatureCollection",
  features: [{ type: "Feature", properties: { id: "a" }, geometry: { type: "Point", coordinates: [-93.1, 45] } }],
});

it("takes a shipped name and a file, and names the nearest for neither", async () => {
  const file = join(folder, "city.json");
  writeFileSync(file, JSON.stringify(CITY));
  expect(await readStandard("ada-floor")).toBe(shippedStandard("ada-floor"));
  expect(await readStandard(file)).toEqual(CITY);
  await expect(readStandard("ada-flor")).rejects.toThrow(/shipped standard: the nearest is ada-floor/);
  await expect(readStandard(join(folder, "none.json"))).rejects.toThrow(/does not exist\.$/);
});

it("enrich --help lists every shipped standard", () => {
  let help = "";
  const enrich = boughline(() => {}).commands.find((command) => command.name() === "enrich");
  enrich?.configureOutput({ writeOut: (text) => (help += text) });
  enrich?.outputHelp();
  for (const { id, title } of SHIPPED_STANDARDS) expect(help).toMatch(new RegExp(`^  ${id} +${title}$`, "m"));
});

it("a plan holds the merged standard with its changes, and what is below the law as a finding", async () => {
  const output = await makePlan(
    {
      revision: 1,
      files: [{ layer: "trees", name: "trees.geojson", bytes: new TextEncoder().encode(TREES), filter: null }],
      columns: {},
      standardJson: CITY,
      options: {
        asOf: "2026-03-01" as IsoDate,
        units: "us",
        drive: "right",
        place: { hardinessZone: null, region: null },
      },
      crs: null,
      withZones: false,
    },
    () => {},
  );
  const json: unknown = JSON.parse(new TextDecoder().decode(output.files.get("standard.json")));
  expect(json).toMatchObject({
    id: "example",
    mergedFrom: ["us-common"],
    changes: [{ path: "rules.walkway-headroom.minimum", from: "8 ft", to: "78 in", by: "Example" }, {}],
  });
  expect(resolveStandard(json)).toHaveProperty("standard");
  expect(output.findings.filter(({ code }) => code === "below-legal-floor")).toHaveLength(1);
});
