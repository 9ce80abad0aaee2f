import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import { memorySource, type PlanSource } from "../formats/plan/plan-source.ts";
import { openForPage } from "./open-for-page.ts";
import type { ServedFolder } from "./served-plan.ts";

/** The plan on the page and where its files come from. */
export interface PlanInHand {
  readonly opened: OpenedPlan;
  readonly source: PlanSource;
  /** All files of the revision where they are held in this page; null for a served plan. */
  readonly files: ReadonlyMap<string, Uint8Array> | null;
  /** What the plan is called on the page. */
  readonly name: string;
  /** The folder it is served from; absent for a plan that was made or opened here, or is served by another server. */
  readonly folder?: ServedFolder;
}

/** A plan from files held in memory. Throws as `openPlan` does. */
export async function planFromFiles(files: ReadonlyMap<string, Uint8Array>, name?: string): Promise<PlanInHand> {
  const source = memorySource(files);
  const opened = await openForPage(source);
  return { opened, source, files, name: name ?? planName(opened) };
}

/** The tree file's name without its ending, else the plan's id. */
export function planName({ plan }: OpenedPlan): string {
  const file = plan.inputs.find((input) => input.layer === "trees")?.file;
  return file === undefined ? plan.planId : file.replace(/\.[A-Za-z]{1,8}$/, "");
}
