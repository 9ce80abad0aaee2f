import type { Plan } from "../../core/model/plan.ts";
import { type ForecastVisit, forecastVisits } from "../../core/schedule/forecast-visits.ts";
import type { Standard } from "../../core/standard/standard.ts";

/** Trees forecast at once, and milliseconds after which the page gets a turn: well under the 50 ms that a hand notices. */
const PIECE_TREES = 20;
const TURN_MS = 20;

/** The forecast of a plan, a few trees at a time, so that the page stays at hand; null when `isWanted` says no meanwhile. */
export async function forecastInPieces(
  plan: Plan,
  standard: Standard,
  isWanted: () => boolean,
): Promise<ForecastVisit[] | null> {
  const conflictsOf = new Map<number, (typeof plan.conflicts)[number][]>();
  for (const conflict of plan.conflicts) {
    const own = conflictsOf.get(conflict.treeRow);
    if (own === undefined) conflictsOf.set(conflict.treeRow, [conflict]);
    else own.push(conflict);
  }
  const visits: ForecastVisit[] = [];
  let turnStart = performance.now();
  for (let at = 0; at < plan.prescriptions.length; at += PIECE_TREES) {
    const piece = plan.prescriptions.slice(at, at + PIECE_TREES);
    const conflicts = piece.flatMap(({ treeRow }) => conflictsOf.get(treeRow) ?? []);
    visits.push(...forecastVisits(plan.trees, piece, conflicts, plan.settings, standard, plan.options));
    if (performance.now() - turnStart < TURN_MS) continue;
    await new Promise((resolve) => setTimeout(resolve));
    if (!isWanted()) return null;
    turnStart = performance.now();
  }
  return visits;
}
