import { type OpenPlanFolderOptions, openPlanFolder, type RevisionNote } from "./plan-folder.ts";
import type { RevisionFile } from "./revision-files.ts";

/**
 * Opens a plan folder and writes one revision into it; gives the revision's absolute path. For a run that computes first and must know
 * beforehand whether it may write, call `openPlanFolder` and its `commit`. Throws as those do.
 */
export async function writeRevision(
  dir: string,
  files: Iterable<RevisionFile>,
  options: OpenPlanFolderOptions & { readonly note: RevisionNote },
): Promise<string> {
  const folder = await openPlanFolder(dir, options);
  return await folder.commit(files, options.note);
}
