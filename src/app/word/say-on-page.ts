import type { GivenWord } from "../../core/plan/word/word-preview.ts";
import type { PageContext } from "../frame/side-page.ts";
import { baseFiles } from "../keep/base-files.ts";
import { postRevision } from "../keep/post-revision.ts";
import { planFromFiles } from "../plan-in-hand.ts";
import { startRecord } from "../record/start-record.ts";
import { servedPlan } from "../served-plan.ts";

/**
 * Takes words into the plan in hand, whose next revision is then in hand: the trees spoken of are measured anew in a worker. It is kept in the browser;
 * in a folder that can be saved to it is committed there. Edits of zones made before are part of it. Gives the limits that the words break, a sentence
 * each. Throws Error with the reason where one cannot be taken.
 */
export async function sayOnPage({ hand, desk }: PageContext, words: readonly GivenWord[]): Promise<readonly string[]> {
  const replaces = desk.keep.key;
  const base = await baseFiles(hand, replaces);
  const worker = startRecord();
  try {
    await worker.open({
      files: [...base].map(([name, bytes]) => [name, new Blob([bytes as Uint8Array<ArrayBuffer>])] as const),
      edits: desk.keep.edits,
      earlier: null,
    });
    const taken = await worker.say(words);
    if (taken === null) throw new Error("The plan has this already.");
    const { folder, name } = hand;
    if (folder?.saveToken == null) {
      desk.goOn(await planFromFiles(taken.files, name), { isMadeHere: true, replaces, isLinked: false });
    } else {
      await postRevision(folder, taken.changed);
      const saved = await servedPlan({ name, folder: { saveToken: folder.saveToken } });
      if (saved === null) throw new Error("It is saved in the folder; open it again to see it.");
      desk.goOn(saved, { isMadeHere: false, replaces: null, isLinked: false });
      if (replaces !== null) await desk.keep.forget(replaces);
    }
    return [...taken.breaks.values()].flat();
  } finally {
    worker.end();
  }
}
