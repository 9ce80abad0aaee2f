import type { Command } from "commander";
import { isAtLeast, SEVERITIES } from "../../core/model/finding.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import type { PlanManifest } from "../../core/plan/plan-manifest.ts";
import { makePlan } from "../../formats/plan/make-plan.ts";
import type { LayerFile } from "../../formats/plan/plan-request.ts";
import { RefusedInput } from "../../formats/plan/refused-input.ts";
import { readWaiting, type WaitingFigures } from "../../formats/plan/waiting-words.ts";
import { carriedFolder, isSameFolder, MEASURED_ON_HELP, PREVIOUS_HELP } from "../carry-options.ts";
import { EXIT, inputError, usageError } from "../exit-codes.ts";
import {
  addExportOptions,
  addsNothing,
  commitEverywhere,
  type ExportOptions,
  exportRequest,
  exportRevision,
} from "../export-options.ts";
import { openPlanFolder } from "../folder/plan-folder.ts";
import { layerBytes } from "../layer-bytes.ts";
import {
  collect,
  layerArgument,
  layerTables,
  oneOf,
  planOptionsOf,
  readColumns,
  TABLE_HELP,
} from "../layer-options.ts";
import { BBOX_HELP, type PartOptions, partOf, SHARD_HELP } from "../part-options.ts";
import { isDatabaseAddress } from "../postgis/postgis-address.ts";
import type { SetExit } from "../program.ts";
import { progressLine } from "../progress-line.ts";
import { readStandard, STANDARD_HELP, shippedStandardsHelp } from "../standard-option.ts";
import { stopCleanly } from "../stop-cleanly.ts";
import { summaryText } from "../summary.ts";
import { startThread, THREADS_HELP, threadsOf } from "../threads/start-thread.ts";
import { processAllowance, TIME_LIMIT_HELP } from "../time-limit.ts";

/** Options of `enrich`, as typed; each layer lists `PATH` or `PATH where CONDITION`. */
export interface EnrichOptions extends ExportOptions, PartOptions, Partial<Record<Layer, string[]>> {
  readonly columns?: string;
  readonly table?: string[];
  readonly standard?: string;
  readonly place?: string;
  readonly crs?: string;
  readonly units?: string;
  readonly drive?: string;
  readonly asOf?: string;
  readonly timeLimit?: string;
  readonly threads?: string;
  readonly replace?: boolean;
  readonly previous?: string;
  readonly measuredOn?: string;
  readonly waiting?: boolean;
  readonly failOn?: string;
  readonly json?: boolean;
  readonly out: string;
}

/** Adds `boughline enrich`: from the layers to a plan folder with conflicts, prescriptions and dates. */
export function addEnrich(program: Command, setExit: SetExit): void {
  const command = program
    .command("enrich")
    .description("Measure every tree's conflicts, prescribe the lightest pruning that cures them, and date it")
    .requiredOption("--out <dir>", "plan folder to write");
  for (const layer of LAYERS) {
    command.option(
      `--${layer} <file>`,
      `${layer}: FILE, "FILE where COLUMN = value" or postgres://user@host/db?table=TABLE; may be repeated`,
      collect,
    );
  }
  addExportOptions(command)
    .option("--columns <map.json>", "which of the city's columns feeds which field")
    .option("--table <layer=name>", TABLE_HELP, collect)
    .option("--standard <name|rules.json>", STANDARD_HELP)
    .option("--place <place>", 'region, hardiness zone and climate, for example "US-CA, zone 10, climate SoCalC"')
    .option("--crs <EPSG:n>", "coordinate system of the files, where they do not say it")
    .option("--units <us|metric>", "units of sentences and drawings; us when left out")
    .option("--drive <right|left>", "side of the road that traffic keeps to; right when left out")
    .option("--as-of <date>", "date the plan is made for, YYYY-MM-DD; today when left out")
    .option("--time-limit <seconds>", TIME_LIMIT_HELP)
    .option("--threads <n>", THREADS_HELP)
    .option("--bbox <w,s,e,n>", BBOX_HELP)
    .option("--shard <i/n>", SHARD_HELP)
    .option("--previous <dir>", PREVIOUS_HELP)
    .option("--measured-on <date>", MEASURED_ON_HELP)
    .option("--replace", "put a new revision in place of a plan that is already there")
    .option("--waiting", "also compute what slipping the whole plan by a pruning cycle costs")
    .option("--fail-on <severity>", "exit with 1 when a finding is at least info, warning or error")
    .option("--json", "print plan.json instead of the summary")
    .addHelpText("after", shippedStandardsHelp())
    .action(async (options: EnrichOptions) => setExit(await enrich(options)));
}

/** The cost of waiting among a revision's files; null where it was not asked for. */
function waitingOf(files: ReadonlyMap<string, Uint8Array>): WaitingFigures | null {
  const bytes = files.get("waiting.json");
  return bytes === undefined ? null : readWaiting(bytes);
}

/** Runs `enrich` and gives the exit code. Throws CommandError for faults of usage, input and writing. */
export async function enrich(options: EnrichOptions): Promise<number> {
  const tables = layerTables(options.table);
  const given = LAYERS.flatMap((layer) =>
    (options[layer] ?? []).map((text) => ({ layer, ...layerArgument(text, tables.get(layer) ?? null) })),
  );
  if (options.previous === undefined && !given.some((file) => file.layer === "trees")) {
    throw usageError("--trees is needed: the file with the trees.");
  }
  const failOn = oneOf("--fail-on", options.failOn, SEVERITIES);
  const asked = planOptionsOf(options);
  const carried = await carriedFolder(options, asked, new Set(given.map(({ layer }) => layer)));
  const planOptions = carried?.options ?? asked;
  const allowance = processAllowance(options.timeLimit);
  const exporting = exportRequest(options);
  const threads = threadsOf(options.threads);
  const part = partOf(options);
  const folder = await openPlanFolder(options.out, {
    replace: options.replace === true || isSameFolder(options),
    after: carried?.revision ?? 0,
    inputs: given.filter((file) => !isDatabaseAddress(file.path)).map((file) => file.path),
  });
  const stopping = stopCleanly(() => folder.close());
  const progress = progressLine(process.stderr);
  try {
    if (carried !== null && isSameFolder(options) && folder.existing?.revision !== carried.revision) {
      throw inputError(`${options.out} got a new revision while it was being opened. Run again.`);
    }
    const files: LayerFile[] = [...(carried?.layers ?? [])];
    for (const { layer, path, filter } of given) {
      files.push({ layer, filter, table: tables.get(layer) ?? null, ...(await layerBytes(path)) });
    }
    const output = await makePlan(
      {
        revision: folder.nextRevision,
        files,
        columns: { ...carried?.columns, ...(options.columns === undefined ? {} : await readColumns(options.columns)) },
        standardJson:
          options.standard === undefined ? (carried?.standardJson ?? null) : await readStandard(options.standard),
        options: planOptions,
        crs: options.crs ?? null,
        ...(part === null ? {} : { part }),
        withZones: false,
        withWaiting: options.waiting === true,
        ...(carried === null ? {} : { earlier: carried.earlier }),
      },
      progress.report,
      allowance,
      { threads, startThread, ...(addsNothing(exporting) ? { sink: folder.spool } : {}) },
    );
    const { files: written, findings } = await exportRevision(output.files, exporting);
    await commitEverywhere(written, exporting, async () => {
      await folder.commit([...written, ...folder.spool.moved], {
        plan: output.planId,
        as_of: planOptions.asOf,
        event: "enrich",
        ...(carried === null ? {} : { previous: carried.revision }),
      });
    });
    progress.done();
    const manifest = JSON.parse(new TextDecoder().decode(written.get("plan.json"))) as PlanManifest;
    const told = [...output.findings, ...findings];
    process.stdout.write(
      options.json === true
        ? `${JSON.stringify(manifest)}\n`
        : summaryText(manifest, told, options.out, waitingOf(written)),
    );
    const fails = failOn !== null && told.some((finding) => isAtLeast(finding.severity, failOn));
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
