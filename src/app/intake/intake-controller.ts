import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { IntakeReport } from "../../worker/intake/intake-messages.ts";
import { type IntakeDesk, startIntake } from "../../worker/intake/start-intake.ts";
import type { PlanInHand } from "../plan-in-hand.ts";
import { saveFile } from "../save-file.ts";
import type { WorkController } from "../work-controller.ts";
import { takeIn } from "./intake.ts";
import { emptyDraft, type IntakeDraft, planRequestOf, questionOf, withIntake, withTables } from "./intake-draft.ts";
import { localDate } from "./local-date.ts";
import { planOptions } from "./plan-options.ts";
import { sampleRequest } from "./sample-town.ts";

/** Milliseconds without a change after which the files are looked at again, so that typing does not ask at every letter. */
const PAUSE_MS = 250;

/** Takes files, asks what they are, says what a run would make of them, and makes or opens a plan from them. */
export class IntakeController implements ReactiveController {
  /** What the reader is asked about; null when nothing is asked. */
  draft: IntakeDraft | null = null;
  /** What a run would do; of the draft before while `doing` says that it is looked at anew. */
  report: IntakeReport | null = null;
  /** What is being looked at; null when the report is of the draft. */
  doing: string | null = null;
  /** Why the plan was not made, or why the files could not be looked at. */
  problem: string | null = null;
  private desk: IntakeDesk | null = null;
  private pause = 0;
  private isPausing = false;
  private opening: Promise<void> = Promise.resolve();
  private checking: Promise<void> = Promise.resolve();
  private turn = 0;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly work: WorkController,
    /** What becomes of a plan; `isUnsaved` when it is nowhere but in this page and was made from the reader's files. */
    private readonly load: (hand: PlanInHand, isUnsaved: boolean) => void,
  ) {
    host.addController(this);
  }

  hostDisconnected() {
    this.close();
  }

  /** Adds files to those asked about, or opens the plan they hold. */
  async take(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    const intake = await takeIn(files.map((file) => ({ name: file.name, blob: file })));
    if (intake.plan !== null) {
      this.finish(await this.work.open(intake.plan), false);
      return;
    }
    const draft = withIntake(this.draft ?? emptyDraft(localDate()), intake);
    this.show({ draft, problem: null, doing: "Opening the files" });
    this.opening = this.open(draft);
    await this.opening;
  }

  private async open(draft: IntakeDraft): Promise<void> {
    const desk = this.deskNow();
    try {
      for (const { key, name, blob, isOpened } of draft.files) {
        if (isOpened) continue;
        const tables = await desk.open(name, blob);
        if (this.desk !== desk || this.draft === null) return;
        this.show({ draft: withTables(this.draft, key, tables) });
      }
    } catch (error) {
      this.giveUp(desk, error);
      return;
    }
    this.check();
  }

  /** The reader changed something: the files are looked at again after a pause. */
  change(draft: IntakeDraft) {
    this.show({ draft, problem: null, doing: this.doing ?? "Looking again" });
    window.clearTimeout(this.pause);
    this.isPausing = true;
    this.pause = window.setTimeout(() => this.check(), PAUSE_MS);
  }

  /** Makes the plan as the report says, once the report is of the draft; else says what is missing. */
  async make(): Promise<void> {
    await this.opening;
    if (this.isPausing || this.report === null) this.check();
    await this.checking;
    const { draft, report } = this;
    if (draft === null || this.doing !== null) return;
    const options = planOptions(draft.form);
    if (typeof options === "string") this.show({ problem: options });
    if (report === null || typeof options === "string") return;
    const request = planRequestOf(draft, report);
    if (typeof request === "string") {
      this.show({ problem: request });
      return;
    }
    this.endDesk();
    this.finish(await this.work.make(request), true);
  }

  /** Hands the reader the whole column map as the table shows it, for the next run. */
  saveMap() {
    const { report } = this;
    if (report === null) return;
    const text = `${JSON.stringify(report.columns, null, 2)}\n`;
    saveFile("columns.json", new TextEncoder().encode(text), "application/json");
  }

  async openSample(): Promise<void> {
    const request = await this.work.run(
      "Fetching the sample town",
      "The sample town could not be opened",
      sampleRequest,
    );
    if (request !== null) this.finish(await this.work.make(request, "Sample town"), false);
  }

  close() {
    window.clearTimeout(this.pause);
    this.isPausing = false;
    this.endDesk();
    this.show({ draft: null, report: null, doing: null, problem: null });
  }

  private check() {
    window.clearTimeout(this.pause);
    this.isPausing = false;
    this.checking = this.checkNow();
  }

  private async checkNow(): Promise<void> {
    this.turn += 1;
    const { turn } = this;
    const question = this.draft === null ? null : questionOf(this.draft);
    // A date half written leaves the report as it was; making the plan says what is wrong with it.
    if (question === null) {
      this.show({ doing: null });
      return;
    }
    const desk = this.deskNow();
    try {
      const report = await desk.check(question, {
        doing: (doing) => {
          if (turn === this.turn) this.show({ doing });
        },
        columns: (early) => {
          if (turn === this.turn)
            this.show({ report: withEarly(this.report, early), doing: "Looking at every feature" });
        },
      });
      if (turn !== this.turn || this.desk !== desk) return;
      this.show({ report, doing: null });
    } catch (error) {
      if (turn === this.turn) this.giveUp(desk, error);
    }
  }

  private giveUp(desk: IntakeDesk, error: unknown) {
    if (this.desk !== desk) return;
    this.endDesk();
    this.show({ doing: null, problem: error instanceof Error ? error.message : String(error) });
  }

  private finish(hand: PlanInHand | null, isUnsaved: boolean) {
    if (hand === null) return;
    this.close();
    this.load(hand, isUnsaved);
  }

  private deskNow(): IntakeDesk {
    this.desk ??= startIntake();
    return this.desk;
  }

  private endDesk() {
    this.turn += 1;
    this.desk?.end();
    this.desk = null;
  }

  private show(part: Partial<Pick<IntakeController, "draft" | "report" | "doing" | "problem">>) {
    Object.assign(this, part);
    this.host.requestUpdate();
  }
}

/** An early report with what the one before said of the same files and layers, so that counts and doubts do not come and go. */
function withEarly(before: IntakeReport | null, early: IntakeReport): IntakeReport {
  const sourceOf = new Map(before?.sources.map((source) => [source.key, source]));
  const doubtsOf = new Map(before?.layers.map(({ layer, doubts }) => [layer, doubts]));
  return {
    ...early,
    sources: early.sources.map((source) => {
      const last = sourceOf.get(source.key);
      const isSame = last !== undefined && last.read === source.read && last.leftOut === source.leftOut;
      return isSame && last.fault === null && source.fault === null ? last : source;
    }),
    layers: early.layers.map((layer) => ({ ...layer, doubts: doubtsOf.get(layer.layer) ?? layer.doubts })),
  };
}
