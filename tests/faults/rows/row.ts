import { spawnSync } from "node:child_process";
import type { FaultOptions, FaultRow } from "../fault-row.ts";

/** What testing a row came to. */
interface Judged {
  /** What was measured, one line. */
  readonly figure: string;
  /** What was found wrong, a sentence each; empty when the row holds. */
  readonly wrong: readonly string[];
  /** What else is to be known, for example what could not be tried. */
  readonly remarks?: readonly string[];
}

/** A row of faults or a load that holds when nothing was found wrong. `needs` are programs that it cannot do without. */
export const rowOf = (
  id: string,
  what: string,
  needs: readonly string[],
  judge: (options: FaultOptions) => Promise<Judged>,
): FaultRow => ({
  id,
  what,
  missing: () => {
    const missing = needs.filter((program) => spawnSync("which", [program]).status !== 0);
    return missing.length === 0 ? null : `${missing.join(", ")} not installed`;
  },
  run: async (options) => {
    const { figure, wrong, remarks = [] } = await judge(options);
    return { counts: figure, isHeld: wrong.length === 0, remarks: [...wrong, ...remarks] };
  },
});
