import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { check } from "../../src/cli/commands/check.ts";
import { EXIT } from "../../src/cli/exit-codes.ts";
import type { Finding } from "../../src/core/model/finding.ts";
import type { Layer } from "../../src/core/model/terms.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { makePlan } from "../../src/formats/plan/make-plan.ts";
import type { PlanRequest } from "../../src/formats/plan/plan-request.ts";
import { RefusedInput } from "../../src/formats/plan/refused-input.ts";
import type { BadInputClass } from "./case.ts";
import { caseFile, collection, GOOD } from "./case-files.ts";
import { CASES } from "./cases.ts";

const FOLDER = "tests/bad-input";
const AS_OF = "2026-06-15";

interface Row {
  readonly file: string;
  readonly layer: Layer;
  readonly class: BadInputClass;
  readonly code: string | null;
  readonly rule: string;
}

const manifest = JSON.parse(readFileSync(join(FOLDER, "manifest.json"), "utf8")) as Row[];

interface Checked {
  readonly verdict: string;
  readonly read: number;
  readonly used: number;
  readonly set_aside: number;
  readonly findings: readonly Finding[];
}

/** Runs `boughline check --json` on a file of a layer, in this process. */
async function checked(layer: Layer, file: string): Promise<{ code: number; one: Checked }> {
  let printed = "";
  vi.spyOn(process.stdout, "write").mockImplementation((text) => {
    printed += String(text);
    return true;
  });
  const code = await check([], { [layer]: [join(FOLDER, file)], asOf: AS_OF, json: true });
  vi.restoreAllMocks();
  return { code, one: JSON.parse(printed) as Checked };
}

/** What a plan's `trees.geojson` says of the good trees: their lines, byte for byte. */
async function goodTrees(layer: Layer, bytes: Uint8Array): Promise<string[]> {
  const encoder = new TextEncoder();
  const trees = { layer: "trees", name: "trees.geojson", filter: null, bytes: encoder.encode(collection(GOOD.trees)) };
  const own = { layer, name: `${layer}.geojson`, filter: null, bytes };
  const request: PlanRequest = {
    revision: 1,
    files: (layer === "trees" ? [own] : [trees, own]) as PlanRequest["files"],
    columns: {},
    standardJson: null,
    options: { asOf: isoDate(AS_OF), units: "us", drive: "right", place: { region: null, hardinessZone: null } },
    crs: null,
    withZones: false,
  };
  const { files } = await makePlan(request, () => {});
  const lines = new TextDecoder().decode(files.get("trees.geojson")).split(/\r?\n/);
  // Separators belong to the file around a feature, not to the feature.
  return lines.filter((line) => /"id":"good-\d"/.test(line)).map((line) => line.replace(/,$/, ""));
}

afterEach(() => {
  vi.restoreAllMocks();
});

describe("tests/bad-input", () => {
  const unharmed = new Map<Layer, string[]>();

  beforeAll(async () => {
    for (const layer of new Set(manifest.map((row) => row.layer))) {
      unharmed.set(layer, await goodTrees(layer, new TextEncoder().encode(collection(GOOD[layer]))));
    }
  });

  it("holds the cases as they are written down, and nothing else", () => {
    expect(manifest).toEqual(
      CASES.map(({ name, layer, class: verdict, code, rule }) => ({
        file: `${name}.geojson`,
        layer,
        class: verdict,
        code,
        rule,
      })),
    );
    for (const one of CASES) {
      expect(readFileSync(join(FOLDER, `${one.name}.geojson`)).equals(caseFile(one)), one.name).toBe(true);
    }
    const files = readdirSync(FOLDER).filter((name) => name.endsWith(".geojson"));
    expect(files.sort()).toEqual(CASES.map(({ name }) => `${name}.geojson`).sort());
    expect(manifest.length).toBeGreaterThanOrEqual(150);
  });

  it.each(manifest)("$file: $class", async ({ file, layer, class: verdict, code }) => {
    const started = performance.now();
    const { code: exitCode, one } = await checked(layer, file);
    // A second, the project's promise for a hostile file of up to a megabyte.
    expect(performance.now() - started).toBeLessThan(1000);
    expect(one.read).toBe(one.used + one.set_aside);
    const { findings } = one;
    const told = findings.map((finding) => `${finding.severity} ${finding.code}: ${finding.reason}`).join("\n");
    for (const finding of findings) {
      expect(finding.reason.length, told).toBeGreaterThan(10);
      expect(finding.whatToDo.length, told).toBeGreaterThan(5);
      expect((finding.value ?? "").length).toBeLessThanOrEqual(256);
    }
    if (code !== null)
      expect(
        findings.map((finding) => finding.code),
        told,
      ).toContain(code);
    const worst = findings.filter((finding) => finding.severity !== "info").map((finding) => finding.code);
    if (verdict === "refuse") {
      expect([exitCode, one.verdict, one.read], told).toEqual([EXIT.inputRefused, "unreadable", 0]);
      await expect(goodTrees(layer, readFileSync(join(FOLDER, file)))).rejects.toThrow(RefusedInput);
      return;
    }
    expect(exitCode).toBe(EXIT.done);
    if (verdict === "accept") expect([one.verdict, worst, one.set_aside], told).toEqual(["clean", [], 0]);
    if (verdict === "warn") expect([one.verdict, one.set_aside], told).toEqual(["warnings", 0]);
    if (verdict === "set-aside") expect(one.set_aside, told).toBeGreaterThan(0);

    const bytes = readFileSync(join(FOLDER, file));
    if (!bytes.includes("good-1") || code === "degrees-in-projected") return;
    if (verdict === "set-aside") expect([one.used, one.set_aside], told).toEqual([2, 1]);
    expect(await goodTrees(layer, bytes)).toEqual(unharmed.get(layer));
  });
});
