import type { ReactiveController, ReactiveControllerHost } from "lit";
import { type PlanInHand, planFromFiles } from "../plan-in-hand.ts";
import { saveFile } from "../save-file.ts";
import { folderNow, servedPlan } from "../served-plan.ts";
import { baseFiles } from "./base-files.ts";
import type { Arrival, KeepController } from "./keep-controller.ts";
import { saveToPickedFolder } from "./picked-folder.ts";
import { postRevision } from "./post-revision.ts";
import type { Revised, ReviseRequest } from "./revise-messages.ts";
import { startRevise } from "./start-revise.ts";

/** Where a plan is saved to: the folder it is served from, a zip, or a folder the reader picks. */
export type SaveTarget = "folder" | "zip" | "picked";

/** What the page does with a plan that was saved: it goes on with the revision as it was written. */
export interface SavePage {
  goOn(hand: PlanInHand, arrival: Arrival): void;
  tell(sentence: string): void;
}

/** Writes the plan at hand with its edits as a new revision: to the folder it is served from, to a folder the reader picks, or into a zip. */
export class SaveController implements ReactiveController {
  /** What is being done; null when nothing is. */
  doing: string | null = null;
  /** Where the plan as it stands was last written to in this page; null when it was not. */
  savedTo: string | null = null;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly keep: KeepController,
    private readonly page: SavePage,
  ) {
    host.addController(this);
  }

  hostConnected() {}

  /** Saves the plan; what stands in the way is told. */
  to(target: SaveTarget, hand: PlanInHand): Promise<void> {
    if (target === "folder") return this.toServedFolder(hand);
    return target === "zip" ? this.asZip(hand) : this.toPickedFolder(hand);
  }

  /** Commits a new revision to the folder the plan is served from. A folder that has moved on stays as it is, and the reader is told what to do. */
  private async toServedFolder(hand: PlanInHand): Promise<void> {
    const { folder } = hand;
    if (folder?.saveToken == null) return;
    await this.run("Saving to the folder", async () => {
      const replaces = this.keep.key;
      const { next } = await folderNow();
      const { zip, leftOut } = await this.revised(hand, next, "changed");
      await postRevision(folder, zip);
      const saved = await servedPlan({ name: hand.name, folder: { saveToken: folder.saveToken } });
      if (saved === null) throw new Error("The folder could not be opened again. Reload the page.");
      this.page.goOn(saved, { isMadeHere: false, replaces: null, isLinked: false });
      // Its work is in the folder now.
      if (replaces !== null) await this.keep.forget(replaces);
      this.savedTo = `Saved in the folder as revision ${next}.`;
      this.tellLeftOut(leftOut);
    });
  }

  /** Hands the reader the plan as one zip, which opens here again. A plan that lives in this page goes on as that revision. */
  private async asZip(hand: PlanInHand): Promise<void> {
    await this.run("Making the zip", async () => {
      const next = this.nextRevision(hand);
      const { files, zip, leftOut } = await this.revised(hand, next, "all");
      saveFile(`boughline plan ${hand.name}${next === null ? "" : ` revision ${next}`}.zip`, zip, "application/zip");
      this.tellLeftOut(leftOut);
      if (hand.files === null || !this.keep.canEdit) return;
      if (next !== null)
        this.page.goOn(await planFromFiles(files, hand.name), {
          isMadeHere: true,
          replaces: this.keep.key,
          isLinked: false,
        });
      this.savedTo = "Saved as a zip, which opens here again.";
    });
  }

  /** Writes the plan as a revision of a plan folder that the reader picks. */
  private async toPickedFolder(hand: PlanInHand): Promise<void> {
    await this.run("Saving to the folder", async () => {
      const next = this.nextRevision(hand);
      const { files, leftOut } = await this.revised(hand, next, "all");
      const name = await saveToPickedFolder(files, hand.opened.plan);
      if (name === null) return;
      this.tellLeftOut(leftOut);
      if (hand.files !== null && this.keep.canEdit && next !== null)
        this.page.goOn(await planFromFiles(files, hand.name), {
          isMadeHere: true,
          replaces: this.keep.key,
          isLinked: false,
        });
      this.savedTo = `Saved in the folder ${name}.`;
    });
  }

  /** Another plan came to hand, or this one was changed. */
  forgetSaved() {
    this.savedTo = null;
  }

  private nextRevision({ opened }: PlanInHand): number | null {
    return this.keep.edits.length === 0 ? null : opened.plan.revision + 1;
  }

  private async revised(hand: PlanInHand, revision: number | null, zip: ReviseRequest["zip"]): Promise<Revised> {
    const base = await baseFiles(hand, this.keep.key);
    const blobs = [...base].map(([name, bytes]) => [name, new Blob([bytes as Uint8Array<ArrayBuffer>])] as const);
    return startRevise({ base: blobs, edits: this.keep.edits, revision, zip });
  }

  private tellLeftOut(count: number) {
    if (count > 0)
      this.page.tell(`${count} of the edits could not be made and ${count === 1 ? "is" : "are"} not in it.`);
  }

  private async run(doing: string, act: () => Promise<void>): Promise<void> {
    if (this.doing !== null) return;
    this.show(doing);
    try {
      await act();
    } catch (error) {
      this.page.tell(`Nothing was saved. ${error instanceof Error ? error.message : String(error)}`);
    }
    this.show(null);
  }

  private show(doing: string | null) {
    this.doing = doing;
    this.host.requestUpdate();
  }
}
