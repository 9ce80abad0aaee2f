import { createHash } from "node:crypto";
import { existsSync, lstatSync, readdirSync, readFileSync, readlinkSync } from "node:fs";
import { join } from "node:path";

/** Digests of all files below a folder, by path; links by where they lead. */
export function filesBelow(folder: string, inside = ""): Map<string, string> {
  const files = new Map<string, string>();
  for (const name of readdirSync(join(folder, inside)).sort()) {
    const path = inside === "" ? name : `${inside}/${name}`;
    const stat = lstatSync(join(folder, path));
    if (stat.isSymbolicLink()) files.set(path, `-> ${readlinkSync(join(folder, path))}`);
    else if (stat.isDirectory()) for (const [below, digest] of filesBelow(folder, path)) files.set(below, digest);
    else
      files.set(
        path,
        createHash("sha256")
          .update(readFileSync(join(folder, path)))
          .digest("hex"),
      );
  }
  return files;
}

/** What a reader of a plan folder sees: where `current` leads and the files of that revision. */
export function seenBy(folder: string): Map<string, string> {
  const current = join(folder, "current");
  if (!existsSync(current)) return new Map();
  return new Map([["current", readlinkSync(current)], ...filesBelow(join(folder, readlinkSync(current)))]);
}

export const isSameState = (one: ReadonlyMap<string, string>, other: ReadonlyMap<string, string>): boolean =>
  one.size === other.size && [...one].every(([path, digest]) => other.get(path) === digest);

/** Names that an unfinished run leaves; the next run takes them away. */
export const leftovers = (state: ReadonlyMap<string, string>): string[] =>
  [...state.keys()].filter((path) => path.split("/").some((part) => part.startsWith(".boughline")));
