import { readFile } from "node:fs/promises";
import { join } from "node:path";
import type { PlanSource } from "../formats/plan/plan-source.ts";
import { inputError } from "./exit-codes.ts";
import { readCurrent } from "./folder/read-current.ts";

/** The current revision of a plan folder and its path. Throws CommandError when the folder holds no plan. */
export async function currentSource(dir: string): Promise<PlanSource & { readonly path: string }> {
  const path = await readCurrent(dir);
  if (path === null) throw inputError(`${dir} holds no plan. Make one with "boughline enrich ... --out ${dir}".`);
  return { path, ...folderSource(path) };
}

/** The files of one revision's folder. */
export const folderSource = (path: string): PlanSource => ({
  read: async (name) => {
    try {
      return await readFile(join(path, name));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
      throw error;
    }
  },
});
