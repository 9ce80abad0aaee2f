import type { ClearanceWork, CostOfWaiting } from "../../core/waiting.ts";

/** The cost of waiting as the bytes of `waiting.json`. */
export function waitingFile(cost: CostOfWaiting): Uint8Array {
  const value = {
    years: cost.years,
    trees: cost.trees,
    now: members(cost.now),
    later: members(cost.later),
    now_prunable_later_referred: cost.nowPrunableLaterReferred,
  };
  return new TextEncoder().encode(`${JSON.stringify(value, null, 2)}\n`);
}

const members = ({ visits, hours, crowns, referred }: ClearanceWork) => ({
  visits,
  hours: Math.round(hours * 100) / 100,
  crowns: Math.round(crowns * 1000) / 1000,
  referred,
});
