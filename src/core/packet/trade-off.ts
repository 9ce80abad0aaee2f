import type { PruningOption } from "../model/prescription.ts";
import { formatDose, formatShare } from "../units/format-length.ts";
import { wholeYears } from "../units/format-years.ts";

/** A target that takes less of the crown than this is no choice: next to nothing is cut. */
const LEAST_SHARE = 0.005;

/**
 * What the work lasts as planned and what lasting shorter or longer would take: `About 3 years as planned, 12 % of the live crown; 6 years at
 * 21 %.` Targets that a limit forbids say so; those that read as lasting the same are left out. All visits together. Empty where there is no choice.
 */
export function tradeOffText({ targets = [], lastsYears, doseShare }: PruningOption): string {
  const planned = yearsText(lastsYears);
  const others = targets.filter(
    (target) => yearsText(target.lastsYears) !== planned && target.doseShare >= LEAST_SHARE,
  );
  const words = [
    ...new Set(
      others.map(
        (target) =>
          `${yearsText(target.lastsYears)} at ${formatShare(target.doseShare)}${target.ruledOutBy === null ? "" : " (not allowed)"}`,
      ),
    ),
  ];
  if (words.length === 0) return "";
  return `${planned.charAt(0).toUpperCase()}${planned.slice(1)} as planned, ${formatDose(doseShare)}; ${words.join(", ")}.`;
}

function yearsText(years: number): string {
  const whole = wholeYears(years);
  return whole === 0 ? "under 1 year" : `about ${whole} ${whole === 1 ? "year" : "years"}`;
}
