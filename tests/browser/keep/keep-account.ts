/** How many faults are brought about, and what seeds their moments. */
export interface RunOptions {
  readonly runs: number;
  readonly seed: number;
  readonly onProgress?: (soFar: string) => void;
}

/** What became of edits over many runs of one fault. */
export interface KeepAccount {
  /** How often the fault was brought about. */
  readonly runs: number;
  /** Edits made, and of them shown as saved before the fault. */
  readonly made: number;
  readonly shown: number;
  /** Edits found kept that were made but not shown as saved any more before the fault. */
  readonly beyond: number;
  /** What was wrong, a sentence each; empty when all is well. */
  readonly wrong: readonly string[];
}

/** Keeps account of one journal of edits over faults: what was shown as saved must be there, in order and once, and nothing that was never made. */
export class KeepLedger {
  private readonly wrong: string[] = [];
  private runs = 0;
  private made = 0;
  private shown = 0;
  private beyond = 0;

  /** Labels of the edits that are known to be kept, in order. */
  kept: readonly string[];

  constructor(kept: readonly string[] = []) {
    this.kept = kept;
  }

  /** Takes what one fault left: the labels `made` since the last one, how many edits in all were `shown` as saved, and what was found. */
  take(made: readonly string[], shown: number, found: readonly string[], zoneName: string | undefined): void {
    this.runs += 1;
    this.made += made.length;
    this.shown += Math.max(0, shown - this.kept.length);
    const all = [...this.kept, ...made];
    const says = (what: string) => this.wrong.push(`run ${this.runs}: ${what}`);
    if (found.length < Math.max(shown, this.kept.length)) {
      says(`${shown} edits were shown as saved, ${found.length} are kept`);
    }
    if (found.some((label, at) => label !== all[at])) {
      says(`expected the first of ${all.join(" | ")}; found ${found.join(" | ")}`);
    }
    if (found.length > 0 && zoneName !== found.at(-1)) says(`expected the plan of ${found.at(-1)}; found ${zoneName}`);
    this.beyond += Math.max(0, found.length - Math.max(shown, this.kept.length));
    this.kept = found;
  }

  get account(): KeepAccount {
    const { runs, made, shown, beyond, wrong } = this;
    return { runs, made, shown, beyond, wrong };
  }
}
