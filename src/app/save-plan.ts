import type { PlanInHand } from "./plan-in-hand.ts";
import { saveFile } from "./save-file.ts";

/** Hands the reader a plan made in this page as one zip, which opens here again; false for a plan whose files are not in this page. */
export async function savePlan({ name, files }: PlanInHand): Promise<boolean> {
  if (files === null) return false;
  const { zip } = await import("../formats/zip.ts");
  const bytes = zip([...files].map(([path, content]) => ({ name: path, bytes: content })));
  saveFile(`boughline plan ${name}.zip`, bytes, "application/zip");
  return true;
}
