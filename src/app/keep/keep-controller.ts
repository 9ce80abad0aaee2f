import type { ReactiveController, ReactiveControllerHost } from "lit";
import { PLAN_FORMAT } from "../../core/plan/plan-manifest.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { type PlanInHand, planFromFiles } from "../plan-in-hand.ts";
import { UnsavedController } from "../unsaved-controller.ts";
import { counted, readableCount } from "../words.ts";
import { baseFiles } from "./base-files.ts";
import { claimWork } from "./claim-work.ts";
import type { EditRecord, KnownEditKind } from "./edit-record.ts";
import { type KeepState, wouldLose } from "./keep-state.ts";
import type { KeptEntry, KeptWork } from "./kept-work.ts";
import { replayEdits } from "./replay-edits.ts";
import { NOT_KEPT_WORDS, storageFault } from "./storage-fault.ts";
import { type KeepStart, WorkKeeper } from "./work-keeper.ts";
import { workKey } from "./work-key.ts";
import { type KeptPlan, WorkStore } from "./work-store.ts";

/** How a plan comes to the page. */
export interface Arrival {
  /** Whether it exists nowhere but in this page, so that it is kept before any edit. */
  readonly isMadeHere: boolean;
  /** Key of the kept plan whose place it takes; null for none. */
  readonly replaces: string | null;
  /** Whether an address asked for a view of it, which then outranks the one that is kept. */
  readonly isLinked: boolean;
}

/** What the page does for the keeper. */
export interface KeepPage {
  /** Shows the plan as the kept edits leave it. */
  show(opened: OpenedPlan): void;
  /** Restores a kept view. */
  restore(view: string): void;
  tell(sentence: string): void;
}

/** What is kept of the plan at hand. */
interface Found extends Pick<KeptPlan, "edits" | "unread"> {
  readonly view: string;
  /** Whether its facts or files cannot be read: what is kept from now on takes its place. */
  readonly isDamaged: boolean;
}

const NOTHING: KeepStart = { edits: [], isStored: false, replaces: null, view: "" };

/** Keeps the reader's work on the plan at hand in the browser, says how that stands, and lists what is kept. */
export class KeepController implements ReactiveController {
  state: KeepState = { is: "unchanged" };
  /** What is kept in this browser, the last worked on first. */
  entries: readonly KeptEntry[] = [];
  /** Work on other revisions of the plan at hand that is kept too: the folder moved on while it was being done. */
  others: readonly KeptWork[] = [];
  /** Under what the plan at hand is kept; null until it is known, and where nothing can be kept. */
  key: string | null = null;
  private readonly unsaved: UnsavedController;
  private keeper: WorkKeeper | null = null;
  private endClaim: () => void = () => {};
  /** Told apart from a plan that was opened meanwhile. */
  private turn = 0;
  private view = "";

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly page: KeepPage,
  ) {
    this.unsaved = new UnsavedController(host);
    host.addController(this);
  }

  hostDisconnected() {
    void this.leave();
  }

  /** Whether the plan may be changed in this page now. */
  get canEdit(): boolean {
    return this.keeper !== null && this.state.is !== "elsewhere";
  }

  /** Edits since the revision the plan was opened from. */
  get edits(): readonly EditRecord[] {
    return this.keeper?.edits ?? [];
  }

  /** Reads what is kept in this browser; nothing where that cannot be read. */
  async list(): Promise<void> {
    try {
      this.entries = await this.withStore((store) => store.entries());
    } catch {
      this.entries = [];
    }
    this.host.requestUpdate();
  }

  /** A kept plan as it was before its edits, which `follow` then makes. Throws StorageFault. */
  async open(key: string): Promise<PlanInHand | null> {
    const kept = await this.withStore((store) => store.read(key));
    return kept === null ? null : planFromFiles(kept.files, kept.work.name);
  }

  /** Takes a plan out of the browser, with all that is kept of it. */
  async forget(key: string): Promise<void> {
    try {
      if (this.keeper?.facts.key === key) await this.keeper.forget();
      else await this.withStore((store) => store.forget(key));
    } catch (error) {
      this.page.tell(`It could not be forgotten. ${storageFault(error).message}`);
    }
    await this.list();
    this.others = this.others.filter((work) => work.key !== key);
  }

  /** Turns to the plan now at hand: claims it for this page, makes the edits that are kept of it, and keeps what is made from now on. */
  async follow(hand: PlanInHand, arrival: Arrival): Promise<void> {
    const left = this.leave();
    const { turn } = this;
    this.show({ is: arrival.isMadeHere ? "saving" : "unchanged" });
    const [key] = await Promise.all([workKey(hand).catch(() => null), left]);
    if (turn !== this.turn) return;
    this.key = key;
    if (key === null) {
      // Without a key nothing can be kept, and nobody else can have the plan.
      this.begin(hand, arrival, hand.opened.plan.planId, null);
      return;
    }
    let isFirst = true;
    this.endClaim = claimWork(key, (claim) => {
      if (turn !== this.turn || claim === "asking") return;
      if (claim === "elsewhere") {
        void this.keeper?.end();
        this.keeper = null;
        this.show({ is: "elsewhere", unkept: 0 });
      }
      const isTakenOver = claim === "mine" && !isFirst;
      isFirst = false;
      void this.goOn(hand, arrival, key, claim === "mine", isTakenOver, turn);
    });
  }

  /** Takes an edit and keeps it. Throws Error while another page has the plan. */
  add(kind: KnownEditKind, payload: unknown): EditRecord {
    if (this.keeper === null) throw new Error("Another page has this plan; it may not be changed here.");
    return this.keeper.add(kind, payload);
  }

  /** Keeps the view beside the work. */
  setView(view: string) {
    this.view = view;
    this.keeper?.setView(view);
  }

  /** Tries again to keep what could not be kept. */
  retry() {
    void this.keeper?.retry();
  }

  /** Lets the plan go, for another page to take once what was begun is written. */
  async leave(): Promise<void> {
    const { keeper, endClaim } = this;
    this.turn += 1;
    this.keeper = null;
    this.endClaim = () => {};
    this.key = null;
    this.others = [];
    this.show({ is: "unchanged" });
    await keeper?.end();
    endClaim();
  }

  private async goOn(
    hand: PlanInHand,
    arrival: Arrival,
    key: string,
    isMine: boolean,
    isTakenOver: boolean,
    turn: number,
  ): Promise<void> {
    let kept: Found | null = null;
    try {
      const entry = await this.withStore((store) => store.entry(key));
      if (entry !== null) kept = await this.readKept(key);
      const entries = await this.withStore((store) => store.entries());
      if (turn === this.turn) this.others = othersOf(entries, hand, key, arrival.replaces);
    } catch {
      // Where nothing can be kept at all, that is said once there is something to keep.
    }
    if (turn !== this.turn) return;
    if (kept !== null && (kept.edits.length > 0 || kept.view !== ""))
      this.replay(hand, kept, isTakenOver, arrival.isLinked);
    else if (isTakenOver) this.page.tell("The other tab is closed. You can change the plan here now.");
    if (isMine) this.begin(hand, arrival, key, kept);
  }

  /** What is kept of a plan that is known to be kept; of one that is damaged its edits alone. Null, and told, where it cannot be used. */
  private async readKept(key: string): Promise<Found | null> {
    try {
      const plan = await this.withStore((store) => store.read(key));
      return plan === null ? null : { ...plan, view: plan.work.view, isDamaged: false };
    } catch (error) {
      const { why } = storageFault(error);
      if (why === "broken") {
        const journal = await this.withStore((store) => store.journal(key));
        if (journal.edits.length > 0) return { ...journal, view: "", isDamaged: true };
      }
      this.page.tell(`Work on this plan is kept here. ${NOT_KEPT_WORDS[why]}`);
      return why === "broken" ? { edits: [], unread: 0, view: "", isDamaged: true } : null;
    }
  }

  private replay(hand: PlanInHand, kept: Found, isTakenOver: boolean, isLinked: boolean) {
    const { opened, leftOut } = replayEdits(hand.opened, kept.edits);
    if (kept.edits.length > 0) this.page.show(opened);
    if (kept.view !== "" && !isTakenOver && !isLinked) this.page.restore(kept.view);
    const lost = leftOut.length + kept.unread;
    if (kept.isDamaged) {
      const rescued = kept.edits.length - leftOut.length;
      this.page.tell(
        `What this browser kept of the plan is damaged. ${counted(rescued, "edit")} of it could be read and ${rescued === 1 ? "is" : "are"} here again${lost > 0 ? `; ${readableCount(lost)} could not` : ""}.`,
      );
    } else if (lost > 0) {
      this.page.tell(
        `${readableCount(lost)} of ${readableCount(kept.edits.length + kept.unread)} kept edits could not be read and ${lost === 1 ? "was" : "were"} left out. They stay kept.`,
      );
    } else if (isTakenOver) this.page.tell("The other tab is closed. Its work is here, and you can go on with it.");
  }

  private begin(hand: PlanInHand, { isMadeHere, replaces }: Arrival, key: string, kept: Found | null) {
    const { plan } = hand.opened;
    const facts = {
      key,
      planFormat: PLAN_FORMAT,
      planId: plan.planId,
      revision: plan.revision,
      name: hand.name,
      from: hand.files === null ? ("served" as const) : ("page" as const),
      counts: { trees: plan.trees.length, conflicts: plan.conflicts.length, zones: plan.zones.length },
      files: () => baseFiles(hand, key),
    };
    const start = {
      ...NOTHING,
      replaces,
      view: this.view,
      ...(kept === null ? {} : { edits: kept.edits, isStored: !kept.isDamaged, mends: kept.isDamaged }),
    };
    const { turn } = this;
    this.keeper = new WorkKeeper(facts, (state) => turn === this.turn && this.show(state), start);
    this.show(this.keeper.state);
    const isRescued = kept?.isDamaged === true && kept.edits.length > 0;
    if (isMadeHere || replaces !== null || isRescued) void this.keeper.keepWhole();
  }

  private async withStore<T>(act: (store: WorkStore) => Promise<T>): Promise<T> {
    const store = await WorkStore.open(() => {});
    try {
      return await act(store);
    } finally {
      store.close();
    }
  }

  private show(state: KeepState) {
    this.state = state;
    this.unsaved.hasUnsaved = wouldLose(state);
    this.host.requestUpdate();
  }
}

/** Of what is kept, edited work on the same plan under another key, but for what this plan takes the place of. */
function othersOf(
  entries: readonly KeptEntry[],
  { opened }: PlanInHand,
  key: string,
  replaces: string | null,
): KeptWork[] {
  const works = entries.flatMap((entry) => (entry.is === "whole" ? [entry.work] : []));
  return works.filter(
    (work) => work.planId === opened.plan.planId && work.key !== key && work.key !== replaces && work.edits > 0,
  );
}
