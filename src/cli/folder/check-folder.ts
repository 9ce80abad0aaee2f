import { lstat, realpath } from "node:fs/promises";
import { dirname, join, relative, resolve, sep } from "node:path";
import { CannotWriteError } from "./cannot-write-error.ts";
import { HISTORY } from "./history.ts";
import { CURRENT, currentRevision, REVISIONS } from "./read-current.ts";

/** What stands at a path, links not followed; null for nothing. */
export async function whatIsAt(path: string): Promise<"file" | "folder" | "link" | "other" | null> {
  try {
    const stat = await lstat(path);
    if (stat.isSymbolicLink()) return "link";
    if (stat.isDirectory()) return "folder";
    return stat.isFile() ? "file" : "other";
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw error;
  }
}

/** Throws CannotWriteError unless a plan can live at `dir` (absolute): nothing there yet, or a folder that holds none of the inputs. */
export async function checkFolder(dir: string, inputs: readonly string[]): Promise<void> {
  const what = await whatIsAt(dir);
  if (what === "link") {
    throw new CannotWriteError("link", dir, `${dir} is a link. Name the folder itself, or choose another.`);
  }
  if (what === "file" || what === "other") {
    throw new CannotWriteError("not-a-folder", dir, `${dir} is a file. Choose another name for the plan folder.`);
  }
  if (what === null) return;
  const home = await realpath(dir);
  for (const input of inputs) {
    const inputPath = await realpath(input).catch(() => resolve(input));
    const way = relative(home, dirname(inputPath));
    if (way === ".." || way.startsWith(`..${sep}`) || resolve(home, way) !== join(home, way)) continue;
    throw new CannotWriteError(
      "holds-inputs",
      dir,
      `${dir} holds the input ${input}. Choose another folder for the plan, so that no input is ever touched.`,
    );
  }
}

/** Throws CannotWriteError when the folder has something of its own under one of the names a plan needs. */
export async function checkNames(dir: string): Promise<void> {
  const current = await whatIsAt(join(dir, CURRENT));
  const isForeign = current !== null && (await currentRevision(dir)) === null;
  if (isForeign) throw foreign(dir, CURRENT);
  const revisions = await whatIsAt(join(dir, REVISIONS));
  if (revisions !== null && revisions !== "folder") throw foreign(dir, REVISIONS);
  const history = await whatIsAt(join(dir, HISTORY));
  if (history !== null && history !== "file") throw foreign(dir, HISTORY);
}

const foreign = (dir: string, name: string): CannotWriteError =>
  new CannotWriteError(
    "foreign-names",
    dir,
    `${join(dir, name)} is not part of a plan, but has the name of one. Move it away, or choose another folder.`,
  );
