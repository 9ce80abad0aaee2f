import { type OpenedPlan, openPlan } from "../formats/plan/open-plan.ts";
import { planInZip } from "../formats/plan/plan-in-zip.ts";
import { memorySource, type PlanSource, urlSource } from "../formats/plan/plan-source.ts";

/** A revision's files by their names; a value is a file's bytes, its text, or what its JSON says. */
export type PlanObjects = Readonly<Record<string, unknown>> & { readonly "plan.json": unknown };

/**
 * Where a plan comes from: one already opened; the web address of a revision's folder; files, be it those of a revision, a plan folder
 * picked whole (its newest revision counts) or a plan saved as a zip; objects by file name; or anything that reads files by name.
 */
export type PlanInput = OpenedPlan | string | URL | Iterable<File> | PlanObjects | PlanSource;

/** An opened plan that knows where its other files are read from. */
export interface SourcedPlan extends OpenedPlan {
  readonly source: PlanSource;
}

/** Opens a plan. Throws TypeError for what is none of the inputs, and what `openPlan` throws. */
export async function openPlanInput(input: PlanInput): Promise<OpenedPlan> {
  if (isOpened(input)) return input;
  const source = await sourceOf(input);
  const opened: SourcedPlan = { ...(await openPlan(source)), source };
  return opened;
}

/** Where the files of an opened plan are read from; null where it was opened by other means. */
export const sourceOfOpened = (opened: OpenedPlan): PlanSource | null =>
  "source" in opened && isPlanSource(opened.source as object) ? (opened.source as PlanSource) : null;

export const isOpened = (input: PlanInput): input is OpenedPlan =>
  typeof input === "object" && "plan" in input && "trees" in input;

async function sourceOf(input: Exclude<PlanInput, OpenedPlan>): Promise<PlanSource> {
  if (typeof input === "string") return urlSource(input);
  if (input instanceof URL) return urlSource(input.href);
  if (typeof input === "object" && input !== null) {
    if (isPlanSource(input)) return input;
    if (Symbol.iterator in input) return fileSource(await revisionFiles([...(input as Iterable<File>)]));
    if ("plan.json" in input) return objectSource(input);
  }
  throw new TypeError(`Expected a plan, its address, files or objects, got ${String(input)}`);
}

const isPlanSource = (input: object): input is PlanSource => "read" in input && typeof input.read === "function";

const fileSource = (files: ReadonlyMap<string, Blob>): PlanSource => ({
  read: async (name) => {
    const file = files.get(name);
    return file === undefined ? null : new Uint8Array(await file.arrayBuffer());
  },
});

/** The files of one revision by name. Throws Error when none of the files is a plan's manifest or a zip with one. */
async function revisionFiles(files: readonly File[]): Promise<ReadonlyMap<string, Blob>> {
  const folders = new Map<string, Map<string, Blob>>();
  for (const file of files) {
    const path = file.webkitRelativePath === "" ? file.name : file.webkitRelativePath;
    const at = path.lastIndexOf("/");
    const folder = path.slice(0, Math.max(0, at));
    folders.set(folder, (folders.get(folder) ?? new Map()).set(path.slice(at + 1), file));
  }
  const newest = [...folders]
    .filter(([, held]) => held.has("plan.json"))
    .sort(([one], [other]) => revisionNumber(other) - revisionNumber(one))[0];
  if (newest !== undefined) return newest[1];
  for (const file of files) {
    const found = file.name.endsWith(".zip") ? await planInZip(file) : null;
    if (found !== null) return found;
  }
  throw new Error("These files hold no plan: plan.json is missing");
}

/** The revision that a folder such as `plan/revisions/12` holds; 0 for any other folder. */
const revisionNumber = (folder: string): number => Number(/(?:^|\/)revisions\/(\d+)$/.exec(folder)?.[1] ?? 0);

function objectSource(objects: PlanObjects): PlanSource {
  const encoder = new TextEncoder();
  const bytesOf = (name: string, value: unknown): Uint8Array => {
    if (value instanceof Uint8Array) return value;
    if (typeof value === "string") return encoder.encode(value);
    const isLines = name.endsWith(".jsonl") && Array.isArray(value);
    return encoder.encode(isLines ? value.map((line) => `${JSON.stringify(line)}\n`).join("") : JSON.stringify(value));
  };
  return memorySource(new Map(Object.entries(objects).map(([name, value]) => [name, bytesOf(name, value)])));
}
