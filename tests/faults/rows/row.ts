/** What testing one row of faults or one load came to. */
export interface RowResult {
  /** The row's name in docs/reliability.md, for example `F10`. */
  readonly row: string;
  /** What was measured, a sentence. */
  readonly figure: string;
  /** What was found wrong, a sentence each; empty when the row holds. */
  readonly wrong: readonly string[];
}

/** A row as `npm run faults` runs it; `full` asks for the counts of the long form. */
export type Row = (full: boolean) => Promise<RowResult>;
