import { type GivenCheck, previewChecks } from "../../core/plan/acceptance/preview-checks.ts";
import { acceptPlan } from "../../formats/plan/accept-plan.ts";
import { openRecord } from "../../formats/plan/open-record.ts";
import { memorySource } from "../../formats/plan/plan-source.ts";
import { zip } from "../../formats/zip.ts";
import type { PageContext } from "../frame/side-page.ts";
import { baseFiles } from "../keep/base-files.ts";
import { postRevision } from "../keep/post-revision.ts";
import { planFromFiles } from "../plan-in-hand.ts";
import { servedPlan } from "../served-plan.ts";

/**
 * Takes checks into the plan in hand as its next revision, which then is in hand; in a folder that can be saved to it is committed there. Gives why nothing was taken, or null.
 * Throws as the plan's own files may.
 */
export async function takeChecksIntoHand(
  { hand, desk }: Pick<PageContext, "hand" | "desk">,
  given: readonly GivenCheck[],
): Promise<string | null> {
  const replaces = desk.keep.key;
  const base = await baseFiles(hand, replaces);
  const opened = await openRecord(memorySource(base));
  const preview = previewChecks(given, opened.record);
  const refused = preview.find(({ status }) => status === "refused");
  if (refused !== undefined) return refused.reason;
  const output = await acceptPlan(opened, preview, opened.plan.revision + 1);
  if (output === null) return "The record has these checks already.";
  const { folder, name: planName } = hand;
  if (folder?.saveToken == null) {
    const files = new Map([...base, ...output.files]);
    desk.goOn(await planFromFiles(files, planName), { isMadeHere: true, replaces, isLinked: false });
    return null;
  }
  const changed = [...output.files].filter(([name, bytes]) => !isSame(bytes, base.get(name)));
  await postRevision(folder, zip(changed.map(([name, bytes]) => ({ name, bytes }))));
  const saved = await servedPlan({ name: planName, folder: { saveToken: folder.saveToken } });
  if (saved === null) return "The checks are saved in the folder; open it again to see them.";
  desk.goOn(saved, { isMadeHere: false, replaces: null, isLinked: false });
  return null;
}

const isSame = (one: Uint8Array, other: Uint8Array | undefined): boolean =>
  other !== undefined && one.length === other.length && one.every((byte, at) => byte === other[at]);
