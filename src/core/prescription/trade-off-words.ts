import type { PruningOption } from "../model/prescription.ts";
import { formatShare } from "../units/format-length.ts";
import { wholeYears } from "../units/format-years.ts";

/**
 * What an option costs when it is to last shorter or longer: `under 1 year at 12 %, 3 years at 21 %`; targets that a limit forbids say so. Empty
 * where there is no choice, or where both read the same.
 */
export function tradeOffWords({ targets = [] }: PruningOption): string {
  const words = targets.map(({ lastsYears, doseShare, ruledOutBy }) => {
    const whole = wholeYears(lastsYears);
    const lasts = whole === 0 ? "under 1 year" : whole === 1 ? "1 year" : `${whole} years`;
    return `${lasts} at ${formatShare(doseShare)}${ruledOutBy === null ? "" : " (not allowed)"}`;
  });
  const told = [...new Set(words)];
  return told.length < 2 ? "" : told.join(", ");
}
