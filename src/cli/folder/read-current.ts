import { lstat, readFile, readlink } from "node:fs/promises";
import { join, resolve } from "node:path";

/** Name of the pointer to the newest revision, and of the folder that holds the revisions. */
export const CURRENT = "current";
export const REVISIONS = "revisions";

/** Longest pointer file read; `revisions/` and a number. */
const MAX_POINTER_BYTES = 64;

/**
 * Absolute path of a plan folder's current revision, or null when the folder is absent or holds no plan. The pointer is a link or a
 * one-line file and only ever leads to `revisions/<n>` inside the folder; one that leads elsewhere counts as no plan.
 */
export async function readCurrent(dir: string): Promise<string | null> {
  const revision = await currentRevision(dir);
  return revision === null ? null : join(resolve(dir), REVISIONS, String(revision));
}

/** Number of a plan folder's current revision, or null; see `readCurrent`. */
export async function currentRevision(dir: string): Promise<number | null> {
  const pointer = join(resolve(dir), CURRENT);
  try {
    const what = await lstat(pointer);
    if (what.isSymbolicLink()) return revisionOf(await readlink(pointer));
    if (!what.isFile() || what.size > MAX_POINTER_BYTES) return null;
    return revisionOf(await readFile(pointer, "utf8"));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "ENOENT" || code === "ENOTDIR") return null;
    throw error;
  }
}

/** What the pointer holds for a revision. */
export const pointerText = (revision: number): string => `${REVISIONS}/${revision}`;

function revisionOf(text: string): number | null {
  const parts = text.trim().replaceAll("\\", "/").split("/");
  if (parts.length !== 2 || parts[0] !== REVISIONS) return null;
  return revisionNumber(parts[1]!);
}

/** The number that a revision's folder name stands for, or null when it is no such name. */
export function revisionNumber(name: string): number | null {
  const number = Number(name);
  return Number.isSafeInteger(number) && number > 0 && String(number) === name ? number : null;
}
