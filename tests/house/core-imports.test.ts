import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";

/** Stages in the order of the data; a stage may use the types of an earlier one only. */
const STAGES = [
  "inventory",
  "surroundings",
  "conflict",
  "prescription",
  "schedule",
  "zone",
  "packet",
  "plan",
  "budget",
] as const;
/** Anybody in the core may use these. */
const FOUNDATIONS = ["model", "units", "plane", "standard", "crown", "language"] as const;
/** What a foundation may use of the other foundations; the model names only units. */
const FOUNDATION_ARROWS: Readonly<Record<(typeof FOUNDATIONS)[number], readonly string[]>> = {
  units: ["model"],
  model: ["units"],
  plane: ["units", "model"],
  standard: ["units", "model"],
  crown: ["units", "model", "plane"],
  language: [],
};
const PACKAGES = ["flatbush", "clipper2-ts", "zod", "@turf/turf", "geojson"];
/** Files that tell the whole story. */
const WHOLE = [
  "pipeline.ts",
  "run-ground.ts",
  "plan-part.ts",
  "waiting.ts",
  "record-work.ts",
  "accept-work.ts",
  "inspect-first.ts",
  "inspection-rounds.ts",
  "measured-after-work.ts",
  "carry-plan.ts",
  "explain-changes.ts",
  "words-on-plan.ts",
  "say-words.ts",
  "zones-after-words.ts",
  "exchange.ts",
  "exchange-input.ts",
  "change-details.ts",
  "outcomes-of-step.ts",
  "remeasure-trees.ts",
  "clearance-after-work.ts",
  "index.ts",
];

const core = path.join(import.meta.dirname, "../../src/core");

interface Import {
  readonly file: string;
  readonly from: string;
  readonly isType: boolean;
  readonly clause: string;
}

function importsOf(file: string): Import[] {
  const text = readFileSync(path.join(core, file), "utf8");
  const found: Import[] = [];
  for (const match of text.matchAll(/^(?:import|export)\s([^;]*?)from\s+"([^"]+)"/gm)) {
    const clause = match[1]!.trim();
    found.push({ file, from: match[2]!, isType: isTypeOnly(clause), clause });
  }
  for (const match of text.matchAll(/^import\s+"([^"]+)"|\bimport\("([^"]+)"\)/gm)) {
    found.push({ file, from: (match[1] ?? match[2])!, isType: false, clause: "" });
  }
  return found;
}

/** `import type {...}`, or braces in which every name is marked `type`. */
function isTypeOnly(clause: string): boolean {
  if (clause.startsWith("type ")) return true;
  if (!clause.startsWith("{")) return false;
  const names = clause.slice(1, clause.lastIndexOf("}")).split(",");
  return names.every((name) => name.trim() === "" || name.trim().startsWith("type "));
}

/** Why an import breaks the arrows; null when it does not. */
function fault({ file, from, isType, clause }: Import): string | null {
  const folder = file.includes("/") ? file.slice(0, file.indexOf("/")) : "";
  if (!from.startsWith(".")) {
    if (!PACKAGES.includes(from)) return "a package the core may not use";
    if (from === "@turf/turf" && clause.startsWith("*")) return "the whole of turf";
    return from === "geojson" && !isType ? "geojson is types only" : null;
  }
  if (!/\.(ts|json)$/.test(from)) return "without its ending";
  const target = path.posix.normalize(path.posix.join(path.posix.dirname(file), from));
  if (target.startsWith("..")) return "outside the core";
  if (WHOLE.includes(file)) return null;
  const to = target.includes("/") ? target.slice(0, target.indexOf("/")) : "";
  if (to === folder) return null;
  if (to === "") return isType ? null : "the pipeline from inside a stage";
  const isFoundation = (name: string): name is (typeof FOUNDATIONS)[number] =>
    (FOUNDATIONS as readonly string[]).includes(name);
  if (isFoundation(folder)) return FOUNDATION_ARROWS[folder].includes(to) ? null : `${folder} may not use ${to}`;
  if (isFoundation(to)) return null;
  const [own, other] = [STAGES.indexOf(folder as never), STAGES.indexOf(to as never)];
  if (own < 0 || other < 0) return "an unknown folder";
  if (other > own) return `a later stage, ${to}`;
  return isType ? null : `more than types of ${to}`;
}

const files = readdirSync(core, { recursive: true, encoding: "utf8" })
  .map((file) => file.split(path.sep).join("/"))
  .filter((file) => file.endsWith(".ts") && !file.endsWith(".d.ts"))
  .sort();

describe("the core's imports", () => {
  it("finds the core", () => {
    expect(files).toContain("pipeline.ts");
    expect(files.flatMap(importsOf).length).toBeGreaterThan(files.length);
  });

  it("follow the allowed arrows", () => {
    const faults = files.flatMap(importsOf).flatMap((one) => {
      const why = fault(one);
      return why === null ? [] : [`${one.file} imports ${one.from}: ${why}`];
    });
    expect(faults).toEqual([]);
  });

  it("name no clock, randomness, console or process", () => {
    const banned = /\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b|\bconsole\.|\bprocess\.|\blocaleCompare\b/;
    const faults = files.filter((file) =>
      readFileSync(path.join(core, file), "utf8")
        .split("\n")
        .some((line) => !/^\s*(\/\/|\*|\/\*)/.test(line) && banned.test(line)),
    );
    expect(faults).toEqual([]);
  });
});

describe("the arrows themselves", () => {
  it("refuse what they must", () => {
    const of = (file: string, from: string, isType = false): string | null => fault({ file, from, isType, clause: "" });
    expect(of("conflict/a.ts", "../surroundings/surroundings.ts")).toMatch(/more than types/);
    expect(of("conflict/a.ts", "../surroundings/surroundings.ts", true)).toBeNull();
    expect(of("conflict/a.ts", "../prescription/prescribe.ts", true)).toMatch(/later stage/);
    expect(of("conflict/a.ts", "node:fs")).toMatch(/package/);
    expect(of("conflict/a.ts", "maplibre-gl", true)).toMatch(/package/);
    expect(of("conflict/a.ts", "../../formats/csv.ts", true)).toMatch(/outside/);
    expect(of("model/a.ts", "../conflict/find-conflicts.ts")).toMatch(/may not use/);
    expect(of("pipeline.ts", "./conflict/find-conflicts.ts")).toBeNull();
  });
});
