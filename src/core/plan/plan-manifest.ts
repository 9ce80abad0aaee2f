import type { Plan } from "../model/plan.ts";
import { CONFLICT_KINDS, CREWS, URGENCIES } from "../model/terms.ts";
import { rounded } from "./bough-properties.ts";

/** Version of the layout of a plan folder; a reader refuses a newer one. */
export const PLAN_FORMAT = 1;

/** What `plan.json` holds: how the plan was made, and its counts. */
export function planManifest(plan: Plan) {
  const visits = plan.prescriptions.flatMap((prescription) => prescription.visits);
  return {
    format: PLAN_FORMAT,
    plan: plan.planId,
    revision: plan.revision,
    as_of: plan.options.asOf,
    units: plan.options.units,
    drive: plan.options.drive,
    place: {
      hardiness_zone: plan.options.place.hardinessZone,
      region: plan.options.place.region,
      climate: plan.options.place.climate ?? null,
    },
    standard: plan.standardId,
    zoning: {
      crew_hours: plan.options.zoning?.crewHours ?? null,
      people: { ...plan.options.zoning?.people },
      lift: plan.options.zoning?.hasLift ?? true,
    },
    inputs: plan.inputs,
    not_checked: plan.notChecked,
    counts: {
      trees: plan.trees.length,
      surroundings: plan.surroundings.length,
      sight_areas: plan.sight.length,
      conflicts: plan.conflicts.length,
      conflicts_by_kind: countBy(CONFLICT_KINDS, plan.conflicts, (conflict) => conflict.kind),
      trees_by_urgency: countBy(URGENCIES, plan.prescriptions, (prescription) => prescription.urgency),
      overdue: plan.prescriptions.filter((prescription) => prescription.overdue).length,
      referred: plan.prescriptions.filter((prescription) => prescription.refer !== null).length,
      referred_by_reason: tally(plan.prescriptions.flatMap(({ refer }) => (refer === null ? [] : [refer.code]))),
      visits: visits.length,
      next_visits_by_crew: countBy(
        CREWS,
        visits.filter((visit) => visit.number === 1),
        (visit) => visit.crew,
      ),
      next_visit_hours: rounded(
        visits.reduce((sum, visit) => sum + (visit.number === 1 ? visit.hours : 0), 0),
        1,
      ),
      zones: plan.zones.length,
      findings: plan.findings.length,
    },
    caution:
      "A plan, not a permit: local codes, the road authority and licensed or line-clearance arborists decide. It never says that a place is safe.",
  };
}

export type PlanManifest = ReturnType<typeof planManifest>;

/** How often each word occurs, in alphabetical order. */
function tally(words: readonly string[]): Record<string, number> {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return Object.fromEntries([...counts].sort(([a], [b]) => (a < b ? -1 : 1)));
}

function countBy<K extends string, T>(
  keys: readonly K[],
  items: readonly T[],
  keyOf: (item: T) => K,
): Record<K, number> {
  const counts = Object.fromEntries(keys.map((key) => [key, 0])) as Record<K, number>;
  for (const item of items) counts[keyOf(item)] += 1;
  return counts;
}
