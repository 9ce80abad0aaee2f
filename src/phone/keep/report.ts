import { databaseKeeper, type Keeper, localKeeper } from "./keepers.ts";
import {
  type AddedMark,
  emptyMarks,
  type Marks,
  marksText,
  mergeMarks,
  NO_VISIT_MARK,
  readMarks,
  type VisitMark,
  type ZoneMark,
} from "./marks.ts";

/** Where the marks are: on the device, only in this page, or on their way. */
export type KeptState = "kept" | "keeping" | "memory";

/** Why earlier marks were not taken up; null when they were, or when there were none. */
export type LoadTrouble = "newer" | "unreadable" | null;

/** The marks of one zone's page, kept on the device after every change in two places, of which one is enough. */
export class Report extends EventTarget {
  marks: Marks;
  kept: KeptState = "keeping";
  trouble: LoadTrouble = null;
  readonly #keepers: readonly Keeper[];
  /** Counts changes, so that an older write never says that a newer change is kept. */
  #turn = 0;
  #queue: Promise<void> = Promise.resolve();

  private constructor(keepers: readonly Keeper[], marks: Marks) {
    super();
    this.#keepers = keepers;
    this.marks = marks;
  }

  /** Takes up what was kept under a key; starts empty where nothing was, or nothing can be. */
  static async open(
    key: string,
    keepers: readonly Keeper[] = [localKeeper(key), databaseKeeper(key)],
  ): Promise<Report> {
    const report = new Report(keepers, emptyMarks(newId()));
    let found: Marks | null = null;
    for (const text of await report.#texts()) {
      const marks = readMarks(text);
      if (typeof marks === "string") report.trouble = marks;
      else found = found === null ? marks : mergeMarks(found, marks);
    }
    if (found !== null) {
      report.marks = found;
      if (report.trouble === "unreadable") report.trouble = null;
    }
    await report.#keep();
    return report;
  }

  visit(visitId: string): VisitMark {
    return this.marks.visits.get(visitId) ?? NO_VISIT_MARK;
  }

  changeVisit(visitId: string, change: Partial<VisitMark>): void {
    const mark = { ...this.visit(visitId), ...change, at: this.#stamp() };
    this.#change({ ...this.marks, visits: new Map(this.marks.visits).set(visitId, mark) });
  }

  changeZone(change: Partial<ZoneMark>): void {
    this.#change({ ...this.marks, zone: { ...this.marks.zone, ...change, at: this.#stamp() } });
  }

  /** Adds a tree or a hazard and answers its id. */
  add(kind: AddedMark["kind"], treeId: string | null = null): string {
    const id = newId();
    const texts = { species: "", dbh: "", height: "", notes: "", photos: "" };
    this.#change({
      ...this.marks,
      added: [...this.marks.added, { id, kind, place: null, treeId, ...texts, removed: false, at: this.#stamp() }],
    });
    return id;
  }

  changeAdded(id: string, change: Partial<AddedMark>): void {
    const added = this.marks.added.map((mark) => (mark.id === id ? { ...mark, ...change, at: this.#stamp() } : mark));
    this.#change({ ...this.marks, added });
  }

  /** Takes up what another tab of the same page has kept meanwhile. */
  async reread(): Promise<void> {
    const before = marksText(this.marks);
    await this.#takeUp();
    if (marksText(this.marks) !== before) this.dispatchEvent(new Event("foreign"));
  }

  /** Whether anything was marked or typed in this page, or taken up from before. */
  get hasMarks(): boolean {
    return this.marks.zone.at !== "" || lastChange(this.marks) !== "";
  }

  /** Settles when everything marked so far is kept, or cannot be. */
  settled(): Promise<void> {
    return this.#queue;
  }

  /** The time now, but later than any mark's: clocks are set back, and two taps can fall into one millisecond. */
  #stamp(): string {
    const stamps = [lastChange(this.marks), this.marks.zone.at].filter((at) => at !== "");
    return new Date(Math.max(Date.now(), ...stamps.map((at) => Date.parse(at) + 1))).toISOString();
  }

  #change(marks: Marks): void {
    this.marks = marks;
    this.kept = this.kept === "memory" ? "memory" : "keeping";
    this.#keepAtOnce();
    void this.#keep();
    this.dispatchEvent(new Event("change"));
  }

  /** What can be kept without waiting is; whether it could is told by {@link #keep}. */
  #keepAtOnce(): void {
    for (const { atOnce } of this.#keepers) {
      if (atOnce === undefined) continue;
      try {
        this.#merge(atOnce.read());
        if (this.trouble !== "newer") atOnce.write(marksText(this.marks));
      } catch {
        // Blocked or full.
      }
    }
  }

  #keep(): Promise<void> {
    this.#turn += 1;
    const turn = this.#turn;
    this.#queue = this.#queue.then(async () => {
      if (turn !== this.#turn) return;
      await this.#takeUp();
      // What a newer page keeps is never written over.
      const isAllowed = this.trouble !== "newer";
      const text = marksText(this.marks);
      const results = isAllowed
        ? await Promise.allSettled(this.#keepers.map((keeper) => inTime(keeper.write(text))))
        : [];
      if (turn !== this.#turn) return;
      const before = this.kept;
      this.kept = results.some(({ status }) => status === "fulfilled") ? "kept" : "memory";
      if (this.kept !== before) this.dispatchEvent(new Event("kept"));
    });
    return this.#queue;
  }

  async #takeUp(): Promise<void> {
    for (const text of await this.#texts()) this.#merge(text);
  }

  #merge(text: string | null): void {
    if (text === null) return;
    const marks = readMarks(text);
    if (marks === "newer") this.trouble = "newer";
    else if (marks !== "unreadable") this.marks = mergeMarks(this.marks, marks);
  }

  async #texts(): Promise<string[]> {
    // Called inside a function, since storage that is blocked throws when it is so much as named.
    const results = await Promise.allSettled(this.#keepers.map(async (keeper) => inTime(keeper.read())));
    return results.flatMap((result) => (result.status === "fulfilled" && result.value !== null ? [result.value] : []));
  }
}

/** The key a zone's marks are kept under. */
export const reportKey = (planId: string, revision: number, zoneId: string): string =>
  `${KEY_START}${JSON.stringify([planId, revision, zoneId])}`;

const KEY_START = "boughline:";

/** Another revision of the zone that was opened on this device. */
export interface KeptRevision {
  readonly revision: number;
  /** Whether something was marked in it that no file has. */
  readonly isUnexported: boolean;
}

/** Revisions of a zone that were opened on this device, this page's own included. Empty where storage is blocked. */
export function keptRevisions(planId: string, zoneId: string): KeptRevision[] {
  try {
    return Object.keys(localStorage).flatMap((key) => {
      if (!key.startsWith(KEY_START)) return [];
      const [plan, revision, zone] = JSON.parse(key.slice(KEY_START.length)) as unknown[];
      if (plan !== planId || zone !== zoneId || typeof revision !== "number") return [];
      const marks = readMarks(localStorage.getItem(key) ?? "");
      return [{ revision, isUnexported: typeof marks !== "string" && lastChange(marks) > marks.zone.exportedAt }];
    });
  } catch {
    return [];
  }
}

/** When a visit or an addition was last changed; empty when none was. */
export const lastChange = ({ visits, added }: Marks): string =>
  [...visits.values(), ...added].reduce((last, { at }) => (at > last ? at : last), "");

/** A database that another tab holds may never answer; the page does not wait for it. */
const LONGEST_WAIT_MS = 3000;

const inTime = <T>(answer: Promise<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`Expected an answer in ${LONGEST_WAIT_MS} ms`)), LONGEST_WAIT_MS);
    answer.then(resolve, reject).finally(() => clearTimeout(timer));
  });

/** 16 random hexadecimal digits; `crypto.randomUUID` is missing on pages opened from some places. */
function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
