/** How far a row goes: the few faults of the test command, or the counts of the specification. */
export interface FaultOptions {
  readonly isShort: boolean;
  /** Seeds every random moment, so that a run can be repeated as far as the machine allows. */
  readonly seed: number;
  /** An empty folder of the row's own, removed afterwards. */
  readonly work: string;
  /** Told now and then how far the row is. */
  readonly onProgress: (soFar: string) => void;
}

/** What a row came to. */
export interface FaultResult {
  /** What was counted, in one line: faults set, states found, times measured. */
  readonly counts: string;
  /** Whether all that must hold held. */
  readonly isHeld: boolean;
  /** What failed, a sentence each; and what could not be tried here, and why. */
  readonly remarks: readonly string[];
}

/** One kind of fault to survive, with the script that sets it and judges what is left. */
export interface FaultRow {
  /** Small letters: `f1`. */
  readonly id: string;
  /** One line for the listing: the fault, and what must hold. */
  readonly what: string;
  /** Why it cannot be tried on this machine (a tool or a right that is missing), or null. */
  readonly missing: () => string | null;
  /** Left out of the test command, as it takes minutes in its shortest form. */
  readonly isLong?: boolean;
  readonly run: (options: FaultOptions) => Promise<FaultResult>;
}
