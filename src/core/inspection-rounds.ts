import type { Plan } from "./model/plan.ts";
import type { Prescription, Task, Visit } from "./model/prescription.ts";
import type { Zone } from "./model/zone.ts";
import type { InspectStop } from "./plan/inspect/inspect-stop.ts";
import { capitalized, questionText, settlingText, thingText } from "./plan/inspect/settling-words.ts";
import type { Standard } from "./standard/standard.ts";
import { addDays } from "./units/calendar.ts";
import { buildZones } from "./zone/build-zones.ts";

/** Crew-hours to look at and measure one tree. Our policy. */
const HOURS_PER_TREE = 0.2;
/** Calendar days in which what is only possible is looked at. Our policy. */
const WITHIN_DAYS = 60;

/** Begins the id of every inspection round. */
export const ROUND_PREFIX = "i-";
/** Behind a tree's id: the id of its stop on a round. */
export const INSPECT_SUFFIX = "/inspect";

/**
 * Trees to inspect as rounds of about a day on foot, in walking order along the streets: a plan whose only visits are those looks, and whose zones are the rounds, made as work
 * zones are. It is for packets and lists and is never kept as a plan.
 */
export function inspectionRounds(plan: Plan, stops: readonly InspectStop[], standard: Standard): Plan {
  const byRow = new Map(stops.map((stop) => [stop.treeRow, stop]));
  const prescriptions = plan.prescriptions.map((prescription, row): Prescription => {
    const stop = byRow.get(row);
    const visits = stop === undefined ? [] : [visitOf(plan, stop)];
    return {
      ...prescription,
      visits,
      tasks: visits.flatMap(({ tasks }) => tasks),
      cautions: prescription.cautions.filter((text) => /line-clearance|line owner|line's owner/.test(text)),
    };
  });
  const looking: Plan = { ...plan, prescriptions, zones: [] };
  const zones = buildZones(looking, standard, {});
  return { ...looking, zones: zones.map(roundOf) };
}

function visitOf({ options }: Plan, { treeId, treeRow, questions, refer }: InspectStop): Visit {
  const { asOf, units } = options;
  const asks = questions.map((question) => questionText(question, units));
  const settles = questions.map(
    (question) => `${capitalized(thingText(question.conflict))}: ${settlingText(question, units).join(" ")}`,
  );
  const task: Task = {
    taskId: `${treeId}${INSPECT_SUFFIX}`,
    cause: refer?.reason ?? "A conflict is only possible: nobody is sent to cut before it is measured.",
    conflictIds: questions.map(({ conflict }) => conflict.conflictId),
    objective: "clearance",
    remedy: "none",
    where: asks.length === 0 ? "the whole tree" : asks.join(" "),
    bearingDeg: questions[0]?.conflict.bearingDeg ?? null,
    belowM: null,
    targetM: null,
    how: [...new Set(settles)].join(" "),
    cut: "reduction",
    method: "hand",
    timing: "any-time",
    doseShare: 0,
    limbDiameterM: [0, 0],
  };
  const due = addDays(asOf, WITHIN_DAYS);
  return {
    visitId: `${treeId}${INSPECT_SUFFIX}`,
    treeId,
    treeRow,
    number: 1,
    tasks: [task],
    doseShare: 0,
    crew: "ground",
    hours: HOURS_PER_TREE,
    due,
    windowStart: asOf,
    windowEnd: due,
    windowReason: "looking needs no season",
    urgency: "next-window",
    overdue: false,
    openAfter: [],
  };
}

/** A round closes no road: whoever looks stays out of it. */
const roundOf = (zone: Zone): Zone => ({
  ...zone,
  zoneId: `${ROUND_PREFIX}${zone.zoneId.slice(2)}`,
  name: `Inspect ${zone.name}`,
  hazards: [
    "Look and measure only: nothing is cut on this round.",
    "Stay out of the roadway, and out of reach of overhead lines with poles and measuring rods: line-clearance arborists only.",
  ],
  closure: {
    kind: "none",
    roadName: null,
    speedKmh: null,
    taperM: null,
    bufferM: null,
    signSpacingM: [],
    note: "No closure: measure from the walk or the verge. What can only be measured from the road needs the road authority's word first.",
    control: null,
  },
});
