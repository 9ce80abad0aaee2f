import type { Plan } from "../model/plan.ts";
import { partText, type RunPart } from "../model/run-part.ts";
import { manifestChanges } from "./carry/manifest-changes.ts";
import { PlanCounter, type PlanCounts, partCounts } from "./plan-counts.ts";

/** Version of the layout of a plan folder; a reader refuses a newer one. */
export const PLAN_FORMAT = 1;

/** What a manifest says of how the plan was made. */
export type ManifestFacts = Pick<
  Plan,
  "planId" | "revision" | "options" | "standardId" | "inputs" | "notChecked" | "changes"
> & {
  /** Which of the run's trees the plan is of; left out where it is of all. */
  readonly part?: RunPart;
};

/** What `plan.json` holds: how the plan was made, and its counts. */
export const planManifest = (plan: Plan) => manifestOf(plan, countsOf(plan));

export type PlanManifest = ReturnType<typeof manifestOf>;

function countsOf(plan: Plan): PlanCounts {
  const counter = new PlanCounter();
  counter.add(partCounts(plan.trees.length, plan.conflicts, plan.prescriptions));
  const { surroundings, sight, zones, findings } = plan;
  return counter.counts({
    surroundings: surroundings.length,
    sight_areas: sight.length,
    zones: zones.length,
    findings: findings.length,
  });
}

/** What `plan.json` holds of a plan whose parts were counted one by one. */
export function manifestOf(plan: ManifestFacts, counts: PlanCounts) {
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
    ...(plan.part === undefined ? {} : { part: partText(plan.part) }),
    counts,
    changes: manifestChanges(plan.changes ?? null),
    caution:
      "A plan, not a permit: local codes, the road authority and licensed or line-clearance arborists decide. It never says that a place is safe.",
  };
}
