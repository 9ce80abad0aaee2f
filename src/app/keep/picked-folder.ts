import type { Plan } from "../../core/model/plan.ts";

// Only Chromium has these so far, and TypeScript does not know them.
interface FolderPicker {
  showDirectoryPicker?: (options: { id: string; mode: "readwrite" }) => Promise<FileSystemDirectoryHandle>;
}

const CURRENT = "current";
const REVISIONS = "revisions";
const HISTORY = "history.jsonl";

/** Whether the browser lets the reader give the page a folder to write to. */
export const canPickFolder = (): boolean => (globalThis as FolderPicker).showDirectoryPicker !== undefined;

/**
 * Asks the reader for a plan folder and writes a revision into it; the folder's name, or null when the reader changed their mind. Throws Error, in a
 * sentence, for a folder of another plan or one that has moved on.
 */
export async function saveToPickedFolder(files: ReadonlyMap<string, Uint8Array>, from: Plan): Promise<string | null> {
  const { showDirectoryPicker } = globalThis as FolderPicker;
  if (showDirectoryPicker === undefined)
    throw new Error("This browser cannot write to folders. Save the plan as a zip.");
  let folder: FileSystemDirectoryHandle;
  try {
    folder = await showDirectoryPicker.call(globalThis, { id: "boughline-plan", mode: "readwrite" });
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return null;
    throw error;
  }
  await writeRevision(folder, files, from);
  return folder.name;
}

/**
 * Writes a revision into a plan folder, new or of the same plan: its files first, then its line of history, and last `current`, which the browser replaces in one step. A page
 * closed midway leaves the revision before as the current one.
 */
export async function writeRevision(
  folder: FileSystemDirectoryHandle,
  files: ReadonlyMap<string, Uint8Array>,
  from: Plan,
): Promise<void> {
  const manifest = JSON.parse(new TextDecoder().decode(files.get("plan.json"))) as { revision: number; as_of: string };
  const { revision } = manifest;
  await checkFolder(folder, from, revision);
  const revisions = await folder.getDirectoryHandle(REVISIONS, { create: true });
  const home = await revisions.getDirectoryHandle(String(revision), { create: true });
  for (const [name, bytes] of files) await write(home, name, bytes);
  const history = (await textOf(folder, HISTORY)) ?? "";
  const line = JSON.stringify({ revision, plan: from.planId, as_of: manifest.as_of, event: "edit" });
  await write(folder, HISTORY, `${history}${history === "" || history.endsWith("\n") ? "" : "\n"}${line}\n`);
  await write(folder, CURRENT, `${REVISIONS}/${revision}\n`);
}

async function checkFolder(folder: FileSystemDirectoryHandle, from: Plan, revision: number): Promise<void> {
  const names = new Set<string>();
  for await (const name of (folder as unknown as { keys(): AsyncIterable<string> }).keys()) names.add(name);
  if (names.size === 0) return;
  if (!names.has(CURRENT) && !names.has(REVISIONS)) {
    throw new Error("The folder holds other things. Choose an empty one, or the folder of this plan.");
  }
  const pointer = await textOf(folder, CURRENT);
  if (pointer === null) {
    throw new Error(
      'The folder leads to its newest revision by a link, which a browser cannot move. Open it with "boughline view" to save there.',
    );
  }
  const current = Number(/^revisions\/(\d{1,9})\s*$/.exec(pointer)?.[1] ?? Number.NaN);
  const last = (await textOf(folder, HISTORY))?.trimEnd().split("\n").at(-1) ?? "";
  if (planOf(last) !== from.planId) throw new Error("The folder holds another plan. Choose its own, or an empty one.");
  if (current >= revision || current !== from.revision) {
    throw new Error(
      `The folder is at revision ${current}, and this page's plan came from revision ${from.revision}. Save a zip, and open the folder's newest revision.`,
    );
  }
}

function planOf(line: string): string | null {
  try {
    const value: unknown = JSON.parse(line);
    return typeof value === "object" && value !== null && "plan" in value ? String(value.plan) : null;
  } catch {
    return null;
  }
}

async function textOf(folder: FileSystemDirectoryHandle, name: string): Promise<string | null> {
  try {
    return await (await (await folder.getFileHandle(name)).getFile()).text();
  } catch {
    return null;
  }
}

/** Writes a file whole: the browser writes beside it and renames on closing. */
async function write(folder: FileSystemDirectoryHandle, name: string, content: Uint8Array | string): Promise<void> {
  const handle = await folder.getFileHandle(name, { create: true });
  const stream = await handle.createWritable();
  await stream.write(content as Uint8Array<ArrayBuffer> | string);
  await stream.close();
}
