import type { EditRecord, KnownEditKind } from "./edit-record.ts";
import type { KeepState } from "./keep-state.ts";
import { KEPT_FORMAT, type KeptWork } from "./kept-work.ts";
import { newId } from "./new-id.ts";
import { StorageFault, storageFault } from "./storage-fault.ts";
import { WorkStore } from "./work-store.ts";

/** What is kept of a plan beside its edits. */
export interface WorkFacts
  extends Pick<KeptWork, "key" | "planFormat" | "planId" | "revision" | "name" | "from" | "counts"> {
  /** The plan's files as they are before any edit. */
  readonly files: () => Promise<ReadonlyMap<string, Uint8Array>>;
}

/** How a keeper begins. */
export interface KeepStart {
  /** Edits already made, in order, that stand in the store; none for a plan that is new there. */
  readonly edits: readonly EditRecord[];
  /** Whether the plan and those edits are in the store. */
  readonly isStored: boolean;
  /** Whether what is in the store under its key is damaged, so that the plan takes its place. */
  readonly mends?: boolean;
  /** Key of the kept plan that this one comes after and takes the place of; null for none. */
  readonly replaces: string | null;
  /** The view of the page as a hash. */
  readonly view: string;
}

/** Milliseconds without a further change after which the view is kept; edits are kept at once. */
const VIEW_PAUSE_MS = 400;

/**
 * Keeps the work on one plan in the browser, from its first edit on: the plan's files once, then every edit as it is made. What it says is kept is
 * flushed to the disk. What could not be kept stays here, and is tried again with the next edit.
 */
export class WorkKeeper {
  state: KeepState = { is: "unchanged" };
  /** All edits of the plan in order, kept or not. */
  readonly edits: EditRecord[];
  private stored: number;
  private isWhole: boolean;
  private readonly mends: boolean;
  private replaces: string | null;
  private view: string;
  private isViewStale = false;
  private viewTimer: ReturnType<typeof setTimeout> | undefined;
  private writing: Promise<void> | null = null;
  private store: WorkStore | null = null;
  private readonly since: string;
  private isEnded = false;

  constructor(
    readonly facts: WorkFacts,
    private readonly tell: (state: KeepState) => void,
    start: KeepStart,
    private readonly now: () => string = () => new Date().toISOString(),
  ) {
    this.edits = [...start.edits];
    this.stored = start.isStored ? start.edits.length : 0;
    this.isWhole = start.isStored;
    this.mends = start.mends === true;
    this.replaces = start.replaces;
    this.view = start.view;
    this.since = this.now();
    if (start.isStored)
      this.state = { is: "kept", at: start.edits.at(-1)?.at ?? this.since, edits: start.edits.length };
  }

  /** Keeps the plan as it is, before any edit: for one that was made here and exists nowhere else. */
  keepWhole(): Promise<void> {
    if (!this.isWhole) this.show({ is: "saving" });
    return this.write();
  }

  /** Takes an edit and begins to keep it; the edit as it is kept. Throws Error while another page has the plan. */
  add(kind: KnownEditKind, payload: unknown): EditRecord {
    if (this.state.is === "elsewhere" || this.isEnded)
      throw new Error("Another page has this plan; it may not be changed here.");
    const { planId, revision } = this.facts;
    const edit: EditRecord = { id: newId(), planId, revision, kind, payload, at: this.now() };
    this.edits.push(edit);
    this.show({ is: "saving" });
    void this.write();
    return edit;
  }

  /** Keeps the view beside the work; a plan without work is not kept for its view alone. */
  setView(view: string): void {
    if (view === this.view || this.isEnded) return;
    this.view = view;
    this.isViewStale = true;
    clearTimeout(this.viewTimer);
    this.viewTimer = setTimeout(() => this.isWhole && this.state.is === "kept" && this.write(), VIEW_PAUSE_MS);
  }

  /** Tries again what could not be kept. */
  retry(): Promise<void> {
    if (this.state.is === "not-kept") this.show({ is: "saving" });
    return this.write();
  }

  /** Takes the plan and its edits out of the browser; what is on the page stays. */
  async forget(): Promise<void> {
    await this.writing;
    await (await this.storeNow()).forget(this.facts.key);
    this.isWhole = false;
    this.stored = 0;
    this.show({ is: "unchanged" });
  }

  /** Writes no more; what was begun is finished. */
  async end(): Promise<void> {
    this.isEnded = true;
    clearTimeout(this.viewTimer);
    await this.writing;
    this.store?.close();
    this.store = null;
  }

  /** One write at a time; resolves once nothing is left to write or it failed. */
  private write(): Promise<void> {
    this.writing ??= this.writeAll().finally(() => {
      this.writing = null;
    });
    return this.writing;
  }

  private async writeAll(): Promise<void> {
    try {
      while (!this.isWhole || this.stored < this.edits.length || this.isViewStale) {
        const upTo = this.edits.length;
        this.isViewStale = false;
        if (!(await this.writeUpTo(upTo))) {
          if (this.isEnded) return;
          this.show({ is: "elsewhere", unkept: this.edits.length - this.stored });
          return;
        }
        this.stored = upTo;
      }
      if (!this.isEnded) this.show({ is: "kept", at: this.now(), edits: this.stored });
    } catch (error) {
      if (!this.isEnded) this.show({ is: "not-kept", why: storageFault(error).why });
    }
  }

  /** False once another page turned out to write the same plan. */
  private async writeUpTo(upTo: number): Promise<boolean> {
    const store = await this.storeNow();
    const { key } = this.facts;
    if (this.isWhole) {
      const newest = { at: this.edits[upTo - 1]?.at ?? this.since, view: this.view };
      const appended = await store.append(key, newest, this.edits.slice(this.stored, upTo), this.stored);
      if (appended === "kept") return true;
      // What was taken away from a keeper that has ended is not for it to put back.
      if (appended === "other-writer" || this.isEnded) return false;
    } else if (!this.mends && (await isKeptBySomeone(store, key, this.stored))) return false;
    const files = await this.facts.files();
    await store.keep(this.row(files, upTo), files, this.edits.slice(0, upTo), this.replaces);
    this.isWhole = true;
    this.replaces = null;
    return true;
  }

  private row(files: ReadonlyMap<string, Uint8Array>, edits: number): KeptWork {
    const { files: _, ...facts } = this.facts;
    return {
      ...facts,
      format: KEPT_FORMAT,
      since: this.since,
      at: this.edits[edits - 1]?.at ?? this.since,
      edits,
      files: [...files.keys()],
      bytes: [...files.values()].reduce((sum, { length }) => sum + length, 0),
      view: this.view,
    };
  }

  private async storeNow(): Promise<WorkStore> {
    this.store ??= await WorkStore.open(() => {
      this.store = null;
    });
    return this.store;
  }

  private show(state: KeepState): void {
    this.state = state;
    this.tell(state);
  }
}

/** Whether a page that this one does not know of kept work on the plan; that must not be written over. */
async function isKeptBySomeone(store: WorkStore, key: string, known: number): Promise<boolean> {
  const there = await store.entry(key);
  if (there?.is === "newer") throw new StorageFault("newer");
  return there?.is === "whole" && there.work.edits > known;
}
