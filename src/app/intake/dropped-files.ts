import { currentOf, isPlanFolder } from "./plan-in-folder.ts";

/** Most files taken from one drop; a folder of more is a mistake. */
const MOST_FILES = 200;

/**
 * The files of a drop, those in dropped folders included, at most 200; of a plan folder only those of its current revision. Throws nothing: what cannot be
 * read is left out.
 */
export async function droppedFiles(transfer: DataTransfer): Promise<File[]> {
  const entries = [...transfer.items].map((item) => item.webkitGetAsEntry?.() ?? null);
  if (entries.every((entry) => entry === null)) return [...transfer.files].slice(0, MOST_FILES);
  const files: File[] = [];
  for (const entry of entries) if (entry !== null) await collect(entry, files);
  return files.slice(0, MOST_FILES);
}

async function collect(entry: FileSystemEntry, files: File[]): Promise<void> {
  if (files.length >= MOST_FILES || entry.name.startsWith(".")) return;
  if (entry.isFile) {
    const file = await fileOf(entry as FileSystemFileEntry);
    if (file !== null) files.push(file);
    return;
  }
  const inside = await entriesOf(entry as FileSystemDirectoryEntry);
  const revision = await revisionIn(inside);
  if (revision === null) for (const inner of inside) await collect(inner, files);
  // Packets and exports in folders of their own are made from these.
  else for (const inner of await entriesOf(revision)) if (inner.isFile) await collect(inner, files);
}

/** The folder of a plan folder's current revision; null for any other folder. */
async function revisionIn(inside: readonly FileSystemEntry[]): Promise<FileSystemDirectoryEntry | null> {
  const named = (isFile: boolean) =>
    new Map(inside.filter((one) => one.isFile === isFile).map((one) => [one.name, one]));
  const [files, folders] = [named(true), named(false)];
  if (!isPlanFolder({ files, folders })) return null;
  const textOf = async (name: string) => {
    const entry = files.get(name);
    return entry === undefined ? null : ((await (await fileOf(entry as FileSystemFileEntry))?.text()) ?? null);
  };
  const revisions = await entriesOf(folders.get("revisions") as FileSystemDirectoryEntry);
  const names = revisions.map(({ name }) => name);
  const current = currentOf(await textOf("current"), await textOf("history.jsonl"), names);
  return (revisions.find(({ name }) => name === String(current)) as FileSystemDirectoryEntry | undefined) ?? null;
}

const fileOf = (entry: FileSystemFileEntry): Promise<File | null> =>
  new Promise((resolve) => entry.file(resolve, () => resolve(null)));

async function entriesOf(folder: FileSystemDirectoryEntry): Promise<FileSystemEntry[]> {
  const reader = folder.createReader();
  const all: FileSystemEntry[] = [];
  for (;;) {
    const batch = await new Promise<FileSystemEntry[]>((resolve) => reader.readEntries(resolve, () => resolve([])));
    if (batch.length === 0) return all;
    all.push(...batch);
  }
}
