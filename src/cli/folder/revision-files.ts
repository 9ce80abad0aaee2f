import { mkdir } from "node:fs/promises";
import { dirname, join } from "node:path";
import { type FileContent, flushFolder, writeDurably } from "./write-durably.ts";

/** A file of a revision: its path inside, with `/` between folders, and what it holds. */
export type RevisionFile = readonly [path: string, content: FileContent];

/**
 * Writes files into a new folder and flushes every file and folder. `onPiece` is told the bytes of each piece before it is written. Throws RangeError for
 * a path that leaves the folder or comes twice (letter case apart), and system errors as they come.
 */
export async function writeRevisionFiles(
  folder: string,
  files: Iterable<RevisionFile>,
  onPiece: (bytes: number) => void,
): Promise<void> {
  await mkdir(folder);
  const folders = new Set([folder]);
  const taken = new Set<string>();
  for (const [path, content] of files) {
    checkPath(path, taken);
    const target = join(folder, path);
    for (let parent = dirname(target); parent !== folder; parent = dirname(parent)) folders.add(parent);
    await mkdir(dirname(target), { recursive: true });
    await writeDurably(target, content, onPiece);
  }
  for (const one of [...folders].sort((a, b) => b.length - a.length)) await flushFolder(one);
}

function checkPath(path: string, taken: Set<string>): void {
  const parts = path.split("/");
  const isSafe = parts.every((part) => part !== "" && part !== "." && part !== ".." && !hasUnsafeLetter(part));
  if (!isSafe) throw new RangeError(`Expected a path inside the revision, got ${JSON.stringify(path.slice(0, 80))}`);
  if (taken.has(path.toLowerCase())) throw new RangeError(`Expected each path once, got "${path}" again`);
  taken.add(path.toLowerCase());
}

const hasUnsafeLetter = (part: string): boolean =>
  Array.from(part).some((letter) => letter === "\\" || letter === ":" || letter.charCodeAt(0) < 32);
