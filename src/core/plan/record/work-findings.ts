import type { Finding } from "../../model/finding.ts";
import type { Plan } from "../../model/plan.ts";
import type { Place } from "../completion/completion.ts";
import { REASON_WORDS } from "../completion/reason-words.ts";
import { planFinding } from "../plan-finding.ts";
import { inOrderOfWork } from "./order-of-reports.ts";
import type { RecordedAddition, RecordedVisit, WorkRecord } from "./work-record.ts";

/**
 * What crews' reports leave for somebody to look at: visits that stay open with their reasons, trees that are gone, hazards, trees that the plan does
 * not have, and doses far from the planned ones. Made anew from the record each time; every code begins with `work-`.
 */
export function workFindings(plan: Plan, record: WorkRecord): Finding[] {
  const inForce = inOrderOfWork(record.visits.filter(({ replacedIn }) => replacedIn === null));
  const last = new Map(inForce.map((one) => [one.entry.visitId, one]));
  const row = new Map(plan.trees.map(({ id }, at) => [id, at]));
  // Of a tree that a later inventory has no more nothing is left to be done.
  const visits = [...last.values()]
    .filter(({ entry }) => row.has(entry.treeId))
    .sort(
      (a, b) => row.get(a.entry.treeId)! - row.get(b.entry.treeId)! || (a.entry.visitId < b.entry.visitId ? -1 : 1),
    );
  const additions = record.additions.filter(({ replacedIn }) => replacedIn === null);
  return [...visits.flatMap(openFinding), ...additions.map(additionFinding)];
}

function openFinding({ entry }: RecordedVisit): Finding[] {
  const { treeId, visitId, outcome, reason, date, who, notes } = entry;
  if (outcome === "done" || reason === null) return [];
  const by = who.trim() === "" ? "" : ` by ${who.trim()}`;
  const note = notes.trim() === "" ? "" : ` ${notes.trim()}`;
  const because = `because ${REASON_WORDS[reason]}.${note}`;
  if (reason === "tree-gone") {
    return [
      planFinding(
        "work-tree-gone",
        "warning",
        treeId,
        visitId,
        `Reported gone on ${date}${by}.${note}`,
        "Check it on the spot and in the inventory; plan a replacement.",
      ),
    ];
  }
  return outcome === "partly"
    ? [
        planFinding(
          "work-partly-done",
          "warning",
          treeId,
          visitId,
          `Partly done on ${date}${by}, ${because}`,
          "Send a crew for what is left.",
        ),
      ]
    : [
        planFinding(
          "work-not-done",
          "warning",
          treeId,
          visitId,
          `Not done on ${date}${by}, ${because}`,
          adviceFor(reason),
        ),
      ];
}

const adviceFor = (reason: NonNullable<RecordedVisit["entry"]["reason"]>): string =>
  reason === "not-needed"
    ? "Have a look: measure the clearance, or leave the visit out."
    : reason === "more-than-planned"
      ? "Have an arborist look before anybody cuts more than planned."
      : "Plan the visit again when the reason is gone.";

function additionFinding(one: RecordedAddition): Finding {
  const by = one.who.trim() === "" ? "A crew" : one.who.trim();
  const at = placeWords(one.added.place);
  if (one.kind === "hazard") {
    return planFinding(
      "work-hazard",
      "warning",
      one.added.treeId,
      `${one.reportId}/${one.added.addedId}`,
      `${by} reported a hazard${at}: ${one.added.notes.trim()}`,
      "Look at it; it is in added.geojson.",
    );
  }
  const what = one.added.species.trim() === "" ? "a tree" : `a tree (${one.added.species.trim()})`;
  return planFinding(
    "work-tree-added",
    "info",
    null,
    `${one.reportId}/${one.added.addedId}`,
    `${by} found ${what} that the plan does not have${at}.`,
    "Survey it and add it to the inventory; it is in added.geojson.",
  );
}

const placeWords = (place: Place | null): string =>
  place === null ? ", place not given" : ` at ${place.latDeg.toFixed(6)}, ${place.lonDeg.toFixed(6)}`;
