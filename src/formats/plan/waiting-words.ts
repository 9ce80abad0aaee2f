import { withThousands } from "../../core/units/with-thousands.ts";

/** What `waiting.json` holds. */
export interface WaitingFigures {
  readonly years: number;
  readonly trees: number;
  readonly now: WaitingWork;
  readonly later: WaitingWork;
  readonly now_prunable_later_referred: readonly string[];
}

interface WaitingWork {
  readonly visits: number;
  readonly hours: number;
  readonly crowns: number;
  readonly referred: number;
}

/** The cost of waiting as one plain sentence: a forecast, with the trees that pass from prunable to referred. */
export function waitingWords({ years, trees, now, later, now_prunable_later_referred: lost }: WaitingFigures): string {
  const hours = Math.round(later.hours - now.hours);
  const crowns = Math.round(later.crowns - now.crowns);
  const more = (value: number, unit: string) =>
    `${withThousands(Math.abs(value))} ${unit} ${value < 0 ? "less" : "more"}`;
  const passed =
    lost.length === 0
      ? "no tree passes from prunable to referred"
      : `${withThousands(lost.length)} ${lost.length === 1 ? "tree" : "trees"} that can be pruned now would be referred (their work is not in these hours)`;
  return (
    `Forecast of waiting ${years} years with the ${withThousands(trees)} trees cleared: ${withThousands(Math.round(later.hours))} crew-hours ` +
    `instead of ${withThousands(Math.round(now.hours))} (${more(hours, "h")}), live wood of ${more(crowns, Math.abs(crowns) === 1 ? "whole crown" : "whole crowns")} taken, and ${passed}.`
  );
}

/** The figures of a `waiting.json`; null where the text is none. */
export function readWaiting(bytes: Uint8Array): WaitingFigures | null {
  try {
    const value = JSON.parse(new TextDecoder().decode(bytes)) as WaitingFigures;
    const isWork = (work: WaitingWork | undefined) => Number.isFinite(work?.hours) && Number.isFinite(work?.crowns);
    const isWhole = Number.isFinite(value.years) && isWork(value.now) && isWork(value.later);
    return isWhole && Array.isArray(value.now_prunable_later_referred) ? value : null;
  } catch {
    return null;
  }
}
