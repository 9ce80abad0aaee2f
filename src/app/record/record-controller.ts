import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { WorkSummary } from "../../core/plan/record/work-summary.ts";
import { takeCheckTables } from "../acceptance/drop-checks.ts";
import { baseFiles } from "../keep/base-files.ts";
import type { DeskController } from "../keep/desk-controller.ts";
import { postRevision } from "../keep/post-revision.ts";
import { type PlanInHand, planFromFiles } from "../plan-in-hand.ts";
import { servedPlan } from "../served-plan.ts";
import { counted, readableHours } from "../words.ts";
import { isCompletion } from "./is-completion.ts";
import type { HandedIn, RecordShown, RecordTaken } from "./record-messages.ts";
import { type RecordDesk, startRecord } from "./start-record.ts";

/** Takes crews' reports: shows what would be taken, hears what the reader decides, and then takes exactly that, or nothing. */
export class RecordController implements ReactiveController {
  /** The files on the table, the last of one name; empty when no report is looked at. */
  files: readonly HandedIn[] = [];
  /** What would be taken; of the choices before while `doing` is set. */
  shown: RecordShown | null = null;
  decisions: ReadonlyMap<string, string | null> = new Map();
  /** What is being done; null when nothing is. */
  doing: string | null = null;
  problem: string | null = null;
  private worker: RecordDesk | null = null;
  private hand: PlanInHand | null = null;
  private opening: Promise<void> = Promise.resolve();
  /** Told apart from what was closed or asked anew meanwhile. */
  private turn = 0;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly desk: DeskController,
  ) {
    host.addController(this);
  }

  hostDisconnected() {
    this.close();
  }

  /** Takes the reports and checks among files that were given to the page, and gives back the others. */
  async sort(files: readonly File[], hand: PlanInHand | null): Promise<File[]> {
    const given = await takeCheckTables(files, hand, this.desk);
    const areReports = await Promise.all(given.map((file) => isCompletion(file.name, file)));
    const reports = given.filter((_, at) => areReports[at]);
    if (reports.length > 0 && hand === null) {
      this.desk.tell("These are reports of a crew: open the plan first that they belong to, then drop them again.");
    } else if (reports.length > 0 && hand !== null) void this.take(reports, hand);
    return given.filter((_, at) => !areReports[at]);
  }

  /** Looks at reports beside those on the table already. */
  async take(given: readonly File[], hand: PlanInHand): Promise<void> {
    if (!this.desk.keep.canEdit) {
      this.desk.tell("Another page has this plan: record the work there.");
      return;
    }
    if (this.worker === null) {
      this.hand = hand;
      this.worker = startRecord();
      this.opening = this.open(this.worker, hand);
    }
    const byName = new Map(this.files.map((file) => [file.name, file]));
    for (const file of given) {
      const modifiedAt = `${new Date(file.lastModified).toISOString().slice(0, 19)}Z`;
      byName.set(file.name, { name: file.name, blob: file, modifiedAt });
    }
    this.show({ files: [...byName.values()] });
    await this.preview();
  }

  /** Takes a visit although something stands against it, from this report (null where one alone has it); `undefined` leaves it. */
  async decide(visitId: string, reportId: string | null | undefined): Promise<void> {
    const decisions = new Map(this.decisions);
    if (reportId === undefined) decisions.delete(visitId);
    else decisions.set(visitId, reportId);
    this.show({ decisions });
    await this.preview();
  }

  /** Takes what is shown. The plan goes on as the next revision; in a folder that can be saved to it is committed there. */
  async record(): Promise<void> {
    const { worker, hand, turn } = this;
    if (worker === null || hand === null || this.doing !== null || this.shown?.preview.changesAnything !== true) return;
    this.show({ doing: "Recording the work", problem: null });
    try {
      const taken = await worker.take(this.decisions);
      if (turn !== this.turn || taken === null) return;
      const replaces = this.desk.keep.key;
      const saved = await this.saved(hand, taken);
      if (turn !== this.turn) return;
      this.close();
      if (saved === null) {
        this.desk.goOn(await planFromFiles(taken.files, hand.name), { isMadeHere: true, replaces, isLinked: false });
      } else {
        this.desk.goOn(saved, { isMadeHere: false, replaces: null, isLinked: false });
        if (replaces !== null) await this.desk.keep.forget(replaces);
      }
      this.desk.tell(inWords(taken, saved !== null));
    } catch (error) {
      if (turn !== this.turn) return;
      const reason = error instanceof Error ? error.message : String(error);
      this.show({ doing: null, problem: `Nothing was recorded. ${reason}` });
    }
  }

  close() {
    this.turn += 1;
    this.worker?.end();
    this.worker = null;
    this.hand = null;
    this.show({ files: [], shown: null, decisions: new Map(), doing: null, problem: null });
  }

  private async open(worker: RecordDesk, hand: PlanInHand): Promise<void> {
    const base = await baseFiles(hand, this.desk.keep.key);
    await worker.open({
      files: [...base].map(([name, bytes]) => [name, new Blob([bytes as Uint8Array<ArrayBuffer>])] as const),
      edits: this.desk.keep.edits,
      earlier: hand.folder === undefined ? null : new URL("./plan/revisions/", document.baseURI).href,
    });
  }

  private async preview(): Promise<void> {
    this.turn += 1;
    const { turn, worker, files, decisions } = this;
    if (worker === null) return;
    this.show({ doing: "Looking at the reports", problem: null });
    try {
      await this.opening;
      const shown = await worker.preview(files, decisions);
      if (turn === this.turn) this.show({ shown, doing: null });
    } catch (error) {
      if (turn !== this.turn) return;
      this.show({ doing: null, problem: error instanceof Error ? error.message : String(error) });
    }
  }

  /** The plan as it stands in the folder after it was committed there; null where it is in no folder that can be saved to. */
  private async saved({ folder, name }: PlanInHand, { changed }: RecordTaken): Promise<PlanInHand | null> {
    if (folder?.saveToken == null) return null;
    await postRevision(folder, changed);
    return servedPlan({ name, folder: { saveToken: folder.saveToken } });
  }

  private show(part: Partial<Pick<RecordController, "files" | "shown" | "decisions" | "doing" | "problem">>) {
    Object.assign(this, part);
    this.host.requestUpdate();
  }
}

function inWords({ changedTreeIds, summary, leftOut }: RecordTaken, isSaved: boolean): string {
  const sentences = [
    `Recorded. ${counted(changedTreeIds.length, "tree has", "trees have")} new figures${isSaved ? ", saved in the folder" : ""}.`,
    soFar(summary),
    ...(leftOut > 0
      ? [`${counted(leftOut, "edit")} of the zones could not be made and ${leftOut === 1 ? "is" : "are"} not in it.`]
      : []),
  ];
  return sentences.join(" ");
}

const soFar = ({ all, openVisits, openHours }: WorkSummary): string =>
  `So far ${counted(all.done, "visit")} done, ${all.partly} partly, ${all.notDone} not; ${counted(openVisits, "next visit")} open, ${readableHours(openHours)}.`;
