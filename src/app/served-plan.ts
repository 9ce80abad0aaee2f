import { type PlanSource, urlSource } from "../formats/plan/plan-source.ts";
import { openForPage } from "./open-for-page.ts";
import { type PlanInHand, planName } from "./plan-in-hand.ts";
import type { FolderSettings, PageSettings } from "./settings.ts";

/** The plan folder a page is served from, as it was when the plan was opened. */
export interface ServedFolder extends FolderSettings {
  readonly revision: number;
}

/** What the server says of the folder now. */
export interface FolderNow {
  readonly revision: number;
  readonly next: number;
  readonly files: readonly string[];
}

/** The folder's current revision, the number of its next, and the files it has. Throws Error when the server does not say. */
export async function folderNow(): Promise<FolderNow> {
  const response = await fetch("./plan/folder.json");
  if (!response.ok) throw new Error(`The folder could not be looked at (${response.status}).`);
  return (await response.json()) as FolderNow;
}

/**
 * The plan served beside the page, or null where there is none: no `plan.json`, or one that holds only `null`, as the page's own
 * folder does; called `name`, or as its tree file. Out of a folder it is opened by the number of its revision, so that a later one never mixes in.
 * Throws Error when a plan is there but cannot be opened.
 */
export async function servedPlan({ name, folder }: Pick<PageSettings, "name" | "folder">): Promise<PlanInHand | null> {
  if (folder !== null) {
    const { revision, files } = await folderNow();
    const source = only(new Set(files), urlSource(`./plan/revisions/${revision}/`));
    const opened = await openForPage(source);
    return { opened, source, files: null, name: name ?? planName(opened), folder: { ...folder, revision } };
  }
  const source = urlSource("./plan/current/");
  const manifest = await source.read("plan.json");
  if (manifest === null || new TextDecoder().decode(manifest.slice(0, 16)).trim() === "null") return null;
  const opened = await openForPage(source);
  return { opened, source, files: null, name: name ?? planName(opened) };
}

/** A source that is asked only for what it has; exports, which nobody lists, are not among it. */
const only = (names: ReadonlySet<string>, source: PlanSource): PlanSource => ({
  read: async (name) => (names.has(name) ? source.read(name) : null),
});
