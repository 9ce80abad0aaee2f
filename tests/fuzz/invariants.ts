import { parseColumnMap } from "../../src/core/inventory/column-map-schema.ts";
import type { PlanManifest } from "../../src/core/plan/plan-manifest.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { checkFiles } from "../../src/formats/check/check-files.ts";
import { coordinateSystem } from "../../src/formats/crs/coordinate-system.ts";
import { makePlan } from "../../src/formats/plan/make-plan.ts";
import type { LayerFile, PlanRequest } from "../../src/formats/plan/plan-request.ts";
import { RefusedInput } from "../../src/formats/plan/refused-input.ts";
import { collection, GOOD } from "../corpus/case-files.ts";
import type { FuzzCase } from "./make-case.ts";

const OPTIONS: PlanRequest["options"] = {
  asOf: isoDate("2026-06-15"),
  units: "us",
  drive: "right",
  place: { region: null, hardinessZone: null },
};
/** The project's promise for a hostile file of up to a megabyte; of processor time, which does not grow with what else the machine does. */
const MOST_MS = 1000;
const processorMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/**
 * What went wrong with a case, in one line; null when all held: nothing thrown but RefusedInput (RangeError for a coordinate system), what was
 * read is used or set aside, good features beside an odd one keep their bytes, no prototype is touched, and a second is enough.
 */
export async function problemOf(one: FuzzCase): Promise<string | null> {
  const startedMs = processorMs();
  const problem = await findProblem(one).catch((error: unknown) => `threw ${describe(error)}`);
  if (problem !== null) return problem;
  if (Object.keys(Object.prototype).length > 0) return "Object.prototype was changed";
  const tookMs = processorMs() - startedMs;
  return tookMs > MOST_MS ? `took ${Math.round(tookMs)} ms` : null;
}

async function findProblem(one: FuzzCase): Promise<string | null> {
  if (one.kind === "crs") return crsProblem(one.crs!);
  const parsed = parseColumnMap(one.columns);
  if ("faults" in parsed) return parsed.faults.length > 0 ? null : "a column map was refused without a reason";
  const { columns } = parsed;

  const standard = usCommon();
  const toCheck = { name: `${one.layer}.geojson`, bytes: one.bytes, layer: one.layer, filter: null };
  const [checked] = await checkFiles([toCheck], { columns, crs: null, standard, options: OPTIONS });
  if (checked!.read !== checked!.used + checked!.setAside) {
    return `check: ${checked!.read} read, ${checked!.used} used, ${checked!.setAside} set aside`;
  }
  let made: Awaited<ReturnType<typeof makePlan>>;
  try {
    made = await makePlan(requestOf(one, columns), () => {});
  } catch (error) {
    if (!(error instanceof RefusedInput)) throw error;
    return checked!.verdict === "unreadable" ? null : `refused what check read: ${error.message.slice(0, 200)}`;
  }
  return planProblem(one, made.files, checked!.verdict);
}

async function crsProblem(text: string): Promise<string | null> {
  try {
    const system = await coordinateSystem(text);
    for (const [x, y] of [
      [1e6, 2e5],
      [0, 0],
      [1e12, -1e12],
      [5e-324, 1],
    ] as const)
      system.toLonLat?.(x, y);
    return null;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return error.message.includes("coordinate system")
      ? null
      : `a refusal in the wrong words: ${error.message.slice(0, 200)}`;
  }
}

function planProblem(one: FuzzCase, files: ReadonlyMap<string, Uint8Array>, verdict: string): string | null {
  const text = (name: string): string => new TextDecoder("utf-8", { fatal: true }).decode(files.get(name));
  if (verdict === "unreadable") return "a plan was made of what check could not read";
  const trees = JSON.parse(text("trees.geojson")) as { features: unknown[] };
  const aside = JSON.parse(text("set-aside.geojson")) as { features: unknown[] };
  const { inputs } = JSON.parse(text("plan.json")) as PlanManifest;
  for (const input of inputs) {
    if (input.features !== input.used + input.setAside) return `plan: ${JSON.stringify(input)}`;
  }
  const used = inputs.filter(({ layer }) => layer === "trees").reduce((sum, input) => sum + input.used, 0);
  const setAside = inputs.reduce((sum, input) => sum + input.setAside, 0);
  if (trees.features.length !== used) return `${trees.features.length} trees written, ${used} used`;
  if (aside.features.length !== setAside) return `${aside.features.length} set aside written, ${setAside} counted`;
  if (!one.isLocal) return null;
  const lines = goodLines(text("trees.geojson"));
  return lines.join("\n") === unharmed().join("\n") ? null : `good neighbors changed: ${lines.join(" ").slice(0, 300)}`;
}

function requestOf({ layer, bytes }: FuzzCase, columns: PlanRequest["columns"]): PlanRequest {
  const own: LayerFile = { layer, name: `${layer}.geojson`, bytes, filter: null };
  const trees: LayerFile = { layer: "trees", name: "trees.geojson", filter: null, bytes: GOOD_TREES };
  const files = layer === "trees" ? [own] : [trees, own];
  return { revision: 1, files, columns, standardJson: null, options: OPTIONS, crs: null, withZones: false };
}

const GOOD_TREES = new TextEncoder().encode(collection(GOOD.trees));
let unharmedLines: readonly string[] | null = null;

/** Lines of the good trees in a plan without anything odd; made once by `prepare`. */
function unharmed(): readonly string[] {
  if (unharmedLines === null) throw new Error("Call prepare() first");
  return unharmedLines;
}

/** Makes the plan that good neighbors are compared with. */
export async function prepare(): Promise<void> {
  const { files } = await makePlan(
    requestOf({ kind: "bytes", layer: "trees", bytes: GOOD_TREES, columns: {}, crs: null, isLocal: false }, {}),
    () => {},
  );
  unharmedLines = goodLines(new TextDecoder().decode(files.get("trees.geojson")));
}

/** Separators belong to the file around a feature, not to the feature. */
const goodLines = (text: string): string[] =>
  text
    .split("\n")
    .filter((line) => line.includes('"id":"good-'))
    .map((line) => line.replace(/,$/, ""));

const describe = (error: unknown): string =>
  error instanceof Error
    ? `${error.name}: ${error.message.slice(0, 200)} ${error.stack?.split("\n")[1]?.trim() ?? ""}`
    : String(error);
