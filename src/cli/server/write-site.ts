import { cp, readdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { publicRevision } from "../../formats/write/public-revision.ts";
import type { TreeField } from "../../formats/write/public-trees.ts";
import { usageError } from "../exit-codes.ts";
import { asCannotWrite } from "../folder/cannot-write-error.ts";
import { makeFolder } from "../folder/make-folder.ts";
import { temporaryName } from "../folder/temporary-name.ts";
import { currentSource } from "../folder-source.ts";
import { contentPolicy, withPolicy } from "./content-policy.ts";

export interface SiteOptions {
  readonly basemap: string | null;
  readonly origins: readonly string[];
  /** Private fields that may be shown after all. */
  readonly chosen: readonly TreeField[];
}

/**
 * Writes the page with a plan to be read, as a folder of plain files for any web server: nothing in it can be saved, and the plan is the public one. Whole or not at all.
 * Throws CommandError when the folder is there already and not empty, CannotWriteError when it cannot be written.
 */
export async function writeSite(dir: string, app: string, out: string, options: SiteOptions): Promise<void> {
  const target = resolve(out);
  if ((await readdir(target).catch(() => [])).length > 0) {
    throw usageError(`${out} is not empty. Name a new folder, or empty it.`);
  }
  const source = await currentSource(dir);
  const names = await readdir(source.path);
  const files = new Map<string, Uint8Array>();
  for (const name of names) {
    const bytes = /\.(json|jsonl|geojson|csv)$/.test(name) ? await source.read(name) : null;
    if (bytes !== null) files.set(name, bytes);
  }
  const beside = join(dirname(target), temporaryName());
  try {
    await makeFolder(dirname(target));
    await cp(app, beside, { recursive: true });
    const page = await readFile(join(beside, "index.html"), "utf8");
    await writeFile(join(beside, "index.html"), withPolicy(page, contentPolicy(options.origins)));
    const config = { basemap: options.basemap, name: basename(resolve(dir)) };
    await writeFile(join(beside, "config.json"), `${JSON.stringify(config)}\n`);
    await makeFolder(join(beside, "plan/current"));
    for (const [name, bytes] of publicRevision(files, options.chosen)) {
      await writeFile(join(beside, "plan/current", name), bytes);
    }
    await rm(target, { recursive: true, force: true });
    await rename(beside, target);
  } catch (error) {
    await rm(beside, { recursive: true, force: true }).catch(() => {});
    throw asCannotWrite(error, target, 0);
  }
}
