import type { Plan } from "../../model/plan.ts";
import { CREWS, type Crew } from "../../model/terms.ts";
import { byExport, byText, inOrderOfWork } from "./order-of-reports.ts";
import type { RecordedReport, RecordedVisit, WorkRecord } from "./work-record.ts";

/** Work of one kind of crew, of one month, or of all, done beside planned. */
export interface WorkTotals {
  /** Visits reported done, partly and not done; the last report of each counts. */
  readonly done: number;
  readonly partly: number;
  readonly notDone: number;
  /** Trees with work done or partly done. */
  readonly trees: number;
  /** Crew-hours planned for the visits that are done. */
  readonly plannedHours: number;
  /** Person-hours reported by copies; null where none of them said any. */
  readonly reportedPersonHours: number | null;
  /** Person-hours planned for the visits worked on in those reports: what the reported ones compare with. */
  readonly comparedPersonHours: number;
  /** Reported over compared person-hours; null where one of them is missing. */
  readonly hoursRatio: number | null;
  /** Shares of live crown planned and reported, summed over the visits done whose dose was reported, in crowns. */
  readonly plannedCrowns: number;
  readonly reportedCrowns: number;
  readonly doseRatio: number | null;
}

export interface WorkSummary {
  readonly all: WorkTotals;
  readonly byCrew: readonly { readonly crew: Crew; readonly totals: WorkTotals }[];
  /** `2027-03`, in order. */
  readonly byMonth: readonly { readonly month: string; readonly totals: WorkTotals }[];
  /** Visits that the plan still has to do, and their hours; next visits only. */
  readonly openVisits: number;
  readonly openHours: number;
  readonly treesGone: number;
  readonly addedTrees: number;
  readonly hazards: number;
}

/** A visit with the person-hours it was planned with, and its part of those that the copies which worked on it reported. */
interface Weighed {
  readonly visit: RecordedVisit;
  readonly personHours: number;
  readonly reportedHours: number | null;
}

/** People in a crew of each kind that a plan's hours are counted for: the standard's `crew.people`. */
type People = Readonly<Record<Crew, number>>;

/** What was done and how the estimates compare, from the entries in force. A plan counts hours of crews, crews report hours of people together. */
export function workSummary(plan: Plan, record: WorkRecord, people: People): WorkSummary {
  const inForce = inOrderOfWork(record.visits.filter(({ replacedIn }) => replacedIn === null));
  const last = [...new Map(inForce.map((one) => [one.entry.visitId, one])).values()];
  const weighed = withHours(inForce, last, record.reports, people);
  const months = [...new Set(weighed.map(({ visit }) => visit.entry.date.slice(0, 7)))].sort(byText);
  const next = plan.prescriptions.flatMap(({ visits }) => visits.filter(({ number }) => number === 1));
  const additions = record.additions.filter(({ replacedIn }) => replacedIn === null);
  return {
    all: totalsOf(weighed),
    byCrew: CREWS.flatMap((crew) => {
      const mine = weighed.filter(({ visit }) => visit.planned.crew === crew);
      return mine.length === 0 ? [] : [{ crew, totals: totalsOf(mine) }];
    }),
    byMonth: months.map((month) => ({
      month,
      totals: totalsOf(weighed.filter(({ visit }) => visit.entry.date.startsWith(month))),
    })),
    openVisits: next.length,
    openHours: next.reduce((sum, { hours }) => sum + hours, 0),
    treesGone: plan.trees.filter(({ worked }) => worked?.outcome === "gone").length,
    addedTrees: additions.filter(({ kind }) => kind === "tree").length,
    hazards: additions.filter(({ kind }) => kind === "hazard").length,
  };
}

/** The hours of a copy are shared out over the visits it worked on by their planned hours; a visit that several worked on has its part of each. */
function withHours(
  inForce: readonly RecordedVisit[],
  last: readonly RecordedVisit[],
  reports: readonly RecordedReport[],
  people: People,
): Weighed[] {
  const hoursOf = ({ planned }: RecordedVisit): number => planned.hours * people[planned.crew];
  const hours = new Map<string, number | null>([...reports].sort(byExport).map((one) => [one.reportId, one.crewHours]));
  const planned = new Map<string, number>();
  for (const visit of inForce) {
    if (visit.entry.outcome === "not-done") continue;
    planned.set(visit.reportId, (planned.get(visit.reportId) ?? 0) + hoursOf(visit));
  }
  const told = new Map<string, number>();
  for (const visit of inForce) {
    const ofCopy = hours.get(visit.reportId) ?? null;
    const all = planned.get(visit.reportId) ?? 0;
    if (ofCopy === null || visit.entry.outcome === "not-done" || all <= 0) continue;
    const { visitId } = visit.entry;
    told.set(visitId, (told.get(visitId) ?? 0) + (ofCopy * hoursOf(visit)) / all);
  }
  return last.map((visit) => ({
    visit,
    personHours: hoursOf(visit),
    reportedHours: told.get(visit.entry.visitId) ?? null,
  }));
}

function totalsOf(weighed: readonly Weighed[]): WorkTotals {
  const count = (outcome: string): number => weighed.filter(({ visit }) => visit.entry.outcome === outcome).length;
  const done = weighed.filter(({ visit }) => visit.entry.outcome === "done");
  const worked = weighed.filter(({ visit }) => visit.entry.outcome !== "not-done");
  const told = weighed.filter(({ reportedHours }) => reportedHours !== null);
  const dosed = done.filter(({ visit }) => visit.entry.doseShare !== null);
  const reportedPersonHours = told.length === 0 ? null : sum(told.map((one) => one.reportedHours!));
  const comparedPersonHours = sum(told.map(({ personHours }) => personHours));
  const plannedCrowns = sum(dosed.map(({ visit }) => visit.planned.doseShare));
  const reportedCrowns = sum(dosed.map(({ visit }) => visit.entry.doseShare!));
  return {
    done: done.length,
    partly: count("partly"),
    notDone: count("not-done"),
    trees: new Set(worked.map(({ visit }) => visit.entry.treeId)).size,
    plannedHours: sum(done.map(({ visit }) => visit.planned.hours)),
    reportedPersonHours,
    comparedPersonHours,
    hoursRatio:
      reportedPersonHours === null || comparedPersonHours <= 0 ? null : reportedPersonHours / comparedPersonHours,
    plannedCrowns,
    reportedCrowns,
    doseRatio: plannedCrowns <= 0 ? null : reportedCrowns / plannedCrowns,
  };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
