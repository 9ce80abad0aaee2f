import { basename } from "node:path";
import type { Command } from "commander";
import { parseColumnMap } from "../../core/inventory/column-map-schema.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import { isAtLeast, SEVERITIES } from "../../core/model/finding.ts";
import type { PlanOptions } from "../../core/model/plan.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import type { PlanManifest } from "../../core/plan/plan-manifest.ts";
import { type IsoDate, parseIsoDate } from "../../core/units/calendar.ts";
import { parseLayerArgument } from "../../formats/filter.ts";
import { makePlan } from "../../formats/plan/make-plan.ts";
import type { LayerFile } from "../../formats/plan/plan-request.ts";
import { RefusedInput } from "../../formats/plan/refused-input.ts";
import { EXIT, inputError, usageError } from "../exit-codes.ts";
import { openPlanFolder } from "../folder/plan-folder.ts";
import { parsePlace } from "../parse-place.ts";
import type { SetExit } from "../program.ts";
import { progressLine } from "../progress-line.ts";
import { readInput, readJson } from "../read-input.ts";
import { stopCleanly } from "../stop-cleanly.ts";
import { summaryText } from "../summary.ts";

/** Options of `enrich`, as typed; each layer lists `PATH` or `PATH where CONDITION`. */
export interface EnrichOptions extends Partial<Record<Layer, string[]>> {
  readonly columns?: string;
  readonly standard?: string;
  readonly place?: string;
  readonly crs?: string;
  readonly units?: string;
  readonly drive?: string;
  readonly asOf?: string;
  readonly replace?: boolean;
  readonly failOn?: string;
  readonly json?: boolean;
  readonly out: string;
}

const collect = (value: string, earlier: string[] | undefined): string[] => [...(earlier ?? []), value];

/** Adds `boughline enrich`: from the layers to a plan folder with conflicts, prescriptions and dates. */
export function addEnrich(program: Command, setExit: SetExit): void {
  const command = program
    .command("enrich")
    .description("Measure every tree's conflicts, prescribe the lightest pruning that cures them, and date it")
    .requiredOption("--out <dir>", "plan folder to write");
  for (const layer of LAYERS) {
    command.option(`--${layer} <file>`, `${layer}: FILE or "FILE where COLUMN = value"; may be repeated`, collect);
  }
  command
    .option("--columns <map.json>", "which of the city's columns feeds which field")
    .option("--standard <rules.json>", "clearance rules; the shipped us-common when left out")
    .option("--place <place>", 'region and hardiness zone, for example "US-WI, zone 5"')
    .option("--crs <EPSG:n>", "coordinate system of the files, where they do not say it")
    .option("--units <us|metric>", "units of sentences and drawings", "us")
    .option("--drive <right|left>", "side of the road that traffic keeps to", "right")
    .option("--as-of <date>", "date the plan is made for, YYYY-MM-DD; today when left out")
    .option("--replace", "put a new revision in place of a plan that is already there")
    .option("--fail-on <severity>", "exit with 1 when a finding is at least info, warning or error")
    .option("--json", "print plan.json instead of the summary")
    .action(async (options: EnrichOptions) => setExit(await enrich(options)));
}

/** Runs `enrich` and gives the exit code. Throws CommandError for faults of usage, input and writing. */
export async function enrich(options: EnrichOptions): Promise<number> {
  const given = LAYERS.flatMap((layer) => (options[layer] ?? []).map((text) => ({ layer, ...layerArgument(text) })));
  if (!given.some((file) => file.layer === "trees")) throw usageError("--trees is needed: the file with the trees.");
  const failOn = oneOf("--fail-on", options.failOn, SEVERITIES);
  const planOptions = planOptionsOf(options);
  const folder = await openPlanFolder(options.out, {
    replace: options.replace === true,
    inputs: given.map((file) => file.path),
  });
  const stopping = stopCleanly(() => folder.close());
  const progress = progressLine(process.stderr);
  try {
    const files: LayerFile[] = [];
    for (const { layer, path, filter } of given) {
      files.push({ layer, name: basename(path), bytes: await readInput(path), filter });
    }
    const output = await makePlan(
      {
        revision: folder.nextRevision,
        files,
        columns: options.columns === undefined ? {} : await readColumns(options.columns),
        standardJson: options.standard === undefined ? null : await readJson(options.standard),
        options: planOptions,
        crs: options.crs ?? null,
        withZones: false,
      },
      progress.report,
    );
    await folder.commit(output.files, { plan: output.planId, as_of: planOptions.asOf, event: "enrich" });
    progress.done();
    const manifest = JSON.parse(new TextDecoder().decode(output.files.get("plan.json"))) as PlanManifest;
    process.stdout.write(
      options.json === true ? `${JSON.stringify(manifest)}\n` : summaryText(manifest, output.findings, options.out),
    );
    const fails = failOn !== null && output.findings.some((finding) => isAtLeast(finding.severity, failOn));
    return fails ? EXIT.findings : EXIT.done;
  } catch (error) {
    progress.done();
    if (error instanceof RefusedInput) throw inputError(error.sentences.join("\n"));
    throw error;
  } finally {
    stopping.release();
    folder.close();
  }
}

function layerArgument(text: string): { path: string; filter: string | null } {
  try {
    const { path, filter } = parseLayerArgument(text);
    return { path, filter: filter?.text ?? null };
  } catch (error) {
    throw usageError(`"${text}": ${(error as Error).message}`);
  }
}

function planOptionsOf(options: EnrichOptions): PlanOptions {
  const asOf = options.asOf === undefined ? today() : parseIsoDate(options.asOf);
  if (asOf === null) throw usageError(`--as-of takes a date YYYY-MM-DD, got "${options.asOf}".`);
  return {
    asOf,
    units: oneOf("--units", options.units, ["us", "metric"] as const) ?? "us",
    drive: oneOf("--drive", options.drive, ["right", "left"] as const) ?? "right",
    place: parsePlace(options.place ?? ""),
  };
}

async function readColumns(path: string): Promise<ColumnMap> {
  const parsed = parseColumnMap(await readJson(path));
  if ("faults" in parsed) throw inputError([`${path} is not a column map.`, ...parsed.faults].join("\n"));
  return parsed.columns;
}

function oneOf<T extends string>(name: string, value: string | undefined, allowed: readonly T[]): T | null {
  if (value === undefined) return null;
  if (!allowed.includes(value as T)) throw usageError(`${name} takes ${allowed.join(" or ")}, got "${value}".`);
  return value as T;
}

/** Today's date where this machine is: the only clock in the project, and only when no date was given. */
function today(): IsoDate {
  const now = new Date();
  const text = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0"));
  return text.join("-") as IsoDate;
}
