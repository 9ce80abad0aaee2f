import type { Command } from "commander";
import { isAtLeast, SEVERITIES } from "../../core/model/finding.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import { usCommonSource } from "../../core/standard/parse-standard.ts";
import { resolveStandard } from "../../core/standard/resolve-standard.ts";
import { checkFiles, type FileCheck, type FileToCheck } from "../../formats/check/check-files.ts";
import { coordinateSystem } from "../../formats/crs/coordinate-system.ts";
import { checkText } from "../check-text.ts";
import { EXIT, inputError, usageError } from "../exit-codes.ts";
import { layerBytes } from "../layer-bytes.ts";
import {
  CHECK_TABLE_HELP,
  collect,
  layerArgument,
  oneOf,
  planOptionsOf,
  readColumns,
  tablesAsked,
} from "../layer-options.ts";
import { isDatabaseAddress } from "../postgis/postgis-address.ts";
import { printable } from "../printable.ts";
import type { SetExit } from "../program.ts";
import { readStandard, STANDARD_HELP } from "../standard-option.ts";
import { processAllowance, TIME_LIMIT_HELP } from "../time-limit.ts";

/** Options of `check`, as typed; each layer lists `PATH` or `PATH where CONDITION`. */
export interface CheckCommandOptions extends Partial<Record<Layer, string[]>> {
  readonly columns?: string;
  readonly table?: string[];
  readonly standard?: string;
  readonly place?: string;
  readonly crs?: string;
  readonly asOf?: string;
  readonly timeLimit?: string;
  readonly failOn?: string;
  readonly json?: boolean;
}

/** Adds `boughline check`: what a run would read of the files, without measuring or writing anything. */
export function addCheck(program: Command, setExit: SetExit): void {
  const command = program
    .command("check")
    .description("Read the files as a run would and report what is used, set aside or doubtful; nothing is written")
    .argument("[files...]", 'files whose layer is guessed from name and content; also "FILE where COLUMN = value"');
  for (const layer of LAYERS)
    command.option(`--${layer} <file>`, `a file that holds ${layer}; may be repeated`, collect);
  command
    .option("--columns <map.json>", "which of the city's columns feeds which field")
    .option("--table <name>", CHECK_TABLE_HELP, collect)
    .option("--standard <name|rules.json>", STANDARD_HELP)
    .option("--place <place>", 'region, hardiness zone and climate, for example "US-CA, zone 10, climate SoCalC"')
    .option("--crs <EPSG:n>", "coordinate system of the files, where they do not say it")
    .option("--as-of <date>", "date that later dates are doubted from, YYYY-MM-DD; today when left out")
    .option("--time-limit <seconds>", TIME_LIMIT_HELP)
    .option("--fail-on <severity>", "exit with 1 when a finding is at least info, warning or error")
    .option("--json", "print one JSON object a file, each on its line")
    .action(async (files: string[], options: CheckCommandOptions) => setExit(await check(files, options)));
}

/**
 * Runs `check`, prints the report and gives the exit code: 3 when a file could not be read at all or its layer is not known, 1 when findings reach `--fail-on`, else 0.
 * Throws CommandError for faults of usage and for files that are not there.
 */
export async function check(bare: readonly string[], options: CheckCommandOptions): Promise<number> {
  const tables = tablesAsked(options.table);
  const bareTables = tables.bare.length === 0 ? [null] : tables.bare;
  const given = [
    ...bare.flatMap((text) => bareTables.map((table) => ({ layer: null, table, ...layerArgument(text, table) }))),
    ...LAYERS.flatMap((layer) => {
      const table = tables.byLayer.get(layer) ?? null;
      return (options[layer] ?? []).map((text) => ({ layer, table, ...layerArgument(text, table) }));
    }),
  ];
  if (given.length === 0)
    throw usageError("Give the files to check: boughline check FILE..., or --trees FILE and so on.");
  if (tables.bare.length > 0 && bare.length === 0)
    throw usageError("--table NAME is for a file without a layer; for a layer write --table LAYER=NAME.");
  const failOn = oneOf("--fail-on", options.failOn, SEVERITIES);
  const planOptions = planOptionsOf(options);
  const allowance = processAllowance(options.timeLimit);
  const standard = resolveStandard(
    options.standard === undefined ? usCommonSource : await readStandard(options.standard),
  );
  if ("faults" in standard) throw inputError(["The standard cannot be used.", ...standard.faults].join("\n"));
  const crs = options.crs ?? null;
  if (crs !== null) await refuseUnknownCrs(crs);
  const columns = options.columns === undefined ? {} : await readColumns(options.columns);

  const files: FileToCheck[] = [];
  for (const { layer, path, filter, table } of given) {
    const isDatabase = isDatabaseAddress(path);
    files.push({
      ...(await layerBytes(path)),
      layer,
      filter,
      table: isDatabase ? null : table,
      tables: tables.byLayer,
    });
  }
  const how = { columns, crs, standard: standard.standard, options: planOptions, allowance };
  const checks = await checkFiles(files, how);
  process.stdout.write(
    options.json === true
      ? checks.map((one) => `${printable(JSON.stringify(jsonOf(one)))}\n`).join("")
      : checkText(checks),
  );
  if (checks.some(({ verdict, layer }) => verdict === "unreadable" || layer === null)) return EXIT.inputRefused;
  const fails =
    failOn !== null && checks.some(({ findings }) => findings.some((one) => isAtLeast(one.severity, failOn)));
  return fails ? EXIT.findings : EXIT.done;
}

async function refuseUnknownCrs(crs: string): Promise<void> {
  try {
    await coordinateSystem(crs);
  } catch (error) {
    throw usageError(`--crs: ${(error as Error).message}`);
  }
}

function jsonOf(one: FileCheck): object {
  return {
    file: one.file,
    layer: one.layer,
    layer_guessed_by: one.guessedBy,
    verdict: one.verdict,
    read: one.read,
    used: one.used,
    set_aside: one.setAside,
    crs: one.crs,
    columns: one.columns.map(({ field, column, unit, isUnitNamed, confidence, samples }) => {
      return { field, column, unit, unit_named: isUnitNamed, confidence, samples };
    }),
    findings: one.findings,
  };
}
