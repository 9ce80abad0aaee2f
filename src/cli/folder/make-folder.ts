import { mkdir } from "node:fs/promises";
import { dirname } from "node:path";

/**
 * Makes a folder and its missing parents; gives the first one made, or null when the folder was there.
 *
 * Not `mkdir` with `recursive`: on a read-only disk that reports ENOENT instead of EROFS (seen with Node 20 on Linux).
 */
export async function makeFolder(path: string): Promise<string | null> {
  try {
    return await makeOne(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT" || dirname(path) === path) throw error;
  }
  const firstMade = await makeFolder(dirname(path));
  const made = await makeOne(path);
  return firstMade ?? made;
}

async function makeOne(path: string): Promise<string | null> {
  try {
    await mkdir(path);
    return path;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return null;
    throw error;
  }
}
