import type { Command } from "commander";
import type { PlanManifest } from "../../core/plan/plan-manifest.ts";
import { RefusedInput } from "../../formats/plan/refused-input.ts";
import { zonePlan } from "../../formats/plan/zone-plan.ts";
import { carriedExports } from "../carried-exports.ts";
import { inputError } from "../exit-codes.ts";
import {
  addExportOptions,
  commitEverywhere,
  type ExportOptions,
  exportRequest,
  exportRevision,
} from "../export-options.ts";
import { openPlanFolder } from "../folder/plan-folder.ts";
import { currentSource } from "../folder-source.ts";
import { stopCleanly } from "../stop-cleanly.ts";
import { zonesText } from "../summary.ts";
import { zoneRequest } from "../zone-request.ts";

/** Options of `zone`. */
export interface ZoneOptions extends ExportOptions {
  readonly crewHours?: string;
  readonly crewPeople?: string;
  readonly lift?: boolean;
  readonly anew?: boolean;
  readonly wzdxPublisher?: string;
  readonly wzdxOrganization?: string;
  readonly wzdxContact?: string;
  readonly wzdxUpdated?: string;
  readonly json?: boolean;
}

/** Adds `boughline zone DIR`: a new revision of the plan with its next visits in work zones. */
export function addZone(program: Command): void {
  const command = program
    .command("zone")
    .description("Group the next visits into work zones of about a crew-day, with an order of work")
    .argument("<dir>", "plan folder");
  command
    .option("--crew-hours <hours>", "hours of work in a crew-day; the standard's when left out")
    .option(
      "--crew-people <kind=n,...>",
      "people in a crew, for example ground=2,aerial=4; the standard's when left out",
    )
    .option("--lift", "crews off the ground work from a lift beside the tree (as from the start)")
    .option("--no-lift", "crews off the ground climb, so that no lift stands on the road")
    .option("--anew", "make all draft zones anew, except locked ones, instead of beginning with those the plan has")
    .option(
      "--wzdx-publisher <name>",
      "write wzdx.geojson, a work zone feed of the closures, published by this authority",
    )
    .option("--wzdx-organization <name>", "organization whose work it is; the publisher when left out")
    .option("--wzdx-contact <e-mail>", "who answers for the feed")
    .option("--wzdx-updated <time>", "UTC time the feed is made, such as 2026-11-02T15:00:00Z; now when left out");
  addExportOptions(command).option("--json", "print plan.json instead of the summary").action(zone);
}

/** Runs `zone`. Throws CommandError when there is no plan, and CannotWriteError when the folder cannot be written. */
export async function zone(dir: string, options: ZoneOptions): Promise<void> {
  const asked = exportRequest(options);
  const request = zoneRequest(options);
  const source = await currentSource(dir);
  const exporting = await carriedExports(asked, options, source);
  const folder = await openPlanFolder(dir, { replace: true });
  const stopping = stopCleanly(() => folder.close());
  try {
    const output = await zonePlan(source, folder.nextRevision, request);
    const { files, findings } = await exportRevision(output.files, exporting);
    const manifest = JSON.parse(new TextDecoder().decode(files.get("plan.json"))) as PlanManifest;
    await commitEverywhere(files, exporting, async () => {
      await folder.commit(files, { plan: output.planId, as_of: manifest.as_of, event: "zone" });
    });
    process.stdout.write(options.json === true ? `${JSON.stringify(manifest)}\n` : zonesText(manifest, findings, dir));
  } catch (error) {
    if (error instanceof RefusedInput) throw inputError(error.sentences.join("\n"));
    throw error;
  } finally {
    stopping.release();
    folder.close();
  }
}
