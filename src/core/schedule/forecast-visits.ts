import { stemDiameterM } from "../crown/stem-diameter.ts";
import type { ConflictRecord, TreeSetting } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Prescription, Visit } from "../model/prescription.ts";
import type { Crew } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { personHoursOf, visitHoursOf } from "../standard/visit-hours.ts";
import { addDays, addMonths, type IsoDate } from "../units/calendar.ts";
import { dueDate } from "./due-date.ts";
import { SeasonBook } from "./season-book.ts";
import { plannedTraining, trainingDates } from "./training-visits.ts";

/** Why a visit is expected: it is in the plan; its cure wears off; a crown grows into something; a young tree's training comes round. */
export const VISIT_CAUSES = ["planned", "return", "growth", "training"] as const;
export type VisitCause = (typeof VISIT_CAUSES)[number];

/** A visit of the years to come; only the planned ones have tasks and limits of their own. */
export interface ForecastVisit {
  readonly treeId: string;
  readonly treeRow: number;
  readonly cause: VisitCause;
  readonly due: IsoDate;
  readonly crew: Crew;
  /** Of the crew. */
  readonly hours: number;
  /** Of the people in it together: crew-hours times the crew's size (standard, a setting). */
  readonly personHours: number;
  /** Share of the live crown; at a return at most what the first cure took; null where the crown has yet to grow there. */
  readonly doseShare: number | null;
}

/** Years of workload that are laid out. */
export const FORECAST_YEARS = 10;

interface Forecast {
  readonly standard: Standard;
  readonly options: PlanOptions;
  readonly seasons: SeasonBook;
  readonly endsOn: IsoDate;
}

/**
 * The visits expected in the ten years from the as-of date, in tree order and then by date: those of the plan; a return to every tree
 * that was cleared, by the end of the last allowed window before its cure wears off; a first visit where a crown reaches a minimum
 * later than the plan works; and the structural pruning of young trees until it ends ({@link trainingDates}). A tree referred without a visit is not counted: nobody can say yet what will be done.
 *
 * A return takes the crew and the hours of the visit before, as the stem hardly changes class in a cycle. Removals, new plantings and
 * what other owners do are not forecast.
 */
export function forecastVisits(
  trees: readonly Tree[],
  prescriptions: readonly Prescription[],
  conflicts: readonly ConflictRecord[],
  settings: readonly TreeSetting[],
  standard: Standard,
  options: PlanOptions,
): ForecastVisit[] {
  const forecast = {
    standard,
    options,
    seasons: new SeasonBook(standard, options),
    endsOn: addMonths(options.asOf, 12 * FORECAST_YEARS),
  };
  const laterByRow = laterConflicts(prescriptions, conflicts, forecast);
  return prescriptions.flatMap((prescription) => {
    const tree = trees[prescription.treeRow]!;
    const later = laterByRow.get(tree.row) ?? [];
    const visits = visitsOf(tree, prescription, later, settings[tree.row] ?? null, forecast);
    return withTraining(tree, prescription, visits, forecast).map((visit) => ({
      ...visit,
      personHours: personHoursOf(visit.hours, visit.crew, standard),
    }));
  });
}

/** A visit before its person-hours are counted. */
type Expected = Omit<ForecastVisit, "personHours">;

/** The visits with those of the training cycle among them, by date. A short young tree is a ground crew's where the planned visit is. */
function withTraining(
  tree: Tree,
  { visits }: Prescription,
  expected: Expected[],
  { standard, options, seasons, endsOn }: Forecast,
): Expected[] {
  const planned = plannedTraining(visits);
  if (planned === null || expected.length === 0) return expected;
  const others = expected.map(({ due }) => due);
  const dates = trainingDates(tree, visits, others, seasons.windowsOf(tree), options.asOf, endsOn, standard);
  const { crew, hours } = planned;
  const doseShare = standard.pruning.training?.share ?? null;
  const cause = "training" as const;
  const more = dates.map((due) => ({ treeId: tree.id, treeRow: tree.row, cause, due, crew, hours, doseShare }));
  return [...expected, ...more].sort((one, other) => (one.due < other.due ? -1 : one.due > other.due ? 1 : 0));
}

/** Conflicts that are sure enough, lie in the ten years, and have no task in the plan. */
function laterConflicts(
  prescriptions: readonly Prescription[],
  conflicts: readonly ConflictRecord[],
  { options, endsOn }: Forecast,
): Map<number, ConflictRecord[]> {
  const worked = new Set(prescriptions.flatMap(({ tasks }) => tasks.flatMap(({ conflictIds }) => conflictIds)));
  const byRow = new Map<number, ConflictRecord[]>();
  for (const conflict of conflicts) {
    const { certainty, reachedOn, treeRow } = conflict;
    if (certainty === "possible" || reachedOn <= options.asOf || reachedOn >= endsOn) continue;
    if (worked.has(conflict.conflictId)) continue;
    const own = byRow.get(treeRow);
    if (own === undefined) byRow.set(treeRow, [conflict]);
    else own.push(conflict);
  }
  return byRow;
}

function visitsOf(
  tree: Tree,
  prescription: Prescription,
  later: readonly ConflictRecord[],
  setting: TreeSetting | null,
  forecast: Forecast,
): Expected[] {
  const { standard, options, seasons, endsOn } = forecast;
  const { visits, chosen } = prescription;
  if (tree.condition === "dead" || (prescription.refer !== null && visits.length === 0)) return [];
  const found: Expected[] = visits
    .map((visit) => ({
      treeId: tree.id,
      treeRow: tree.row,
      cause: "planned" as const,
      due: notBefore(visit.due, options.asOf),
      crew: visit.crew,
      hours: visit.hours,
      doseShare: visit.doseShare,
    }))
    .filter(({ due }) => due <= endsOn);
  const last = lastClearance(visits);
  const option = chosen === null ? null : (prescription.options[chosen] ?? null);
  const lastsYears = Math.max(1, option === null ? standard.pruning.cycleYears : option.lastsYears);
  const windows = seasons.windowsOf(tree);
  let from: IsoDate = last === null ? options.asOf : addMonths(last.due, 12);
  let wearsOff: IsoDate | null = last === null || option === null ? null : yearsOn(last.due, lastsYears);
  let firstGrowth = later.reduce<IsoDate | null>(
    (first, { reachedOn }) => (first === null || reachedOn < first ? reachedOn : first),
    null,
  );
  for (;;) {
    const isGrowth = firstGrowth !== null && (wearsOff === null || firstGrowth < wearsOff);
    const reachedOn = isGrowth ? firstGrowth : wearsOff;
    if (reachedOn === null) return found;
    const when = dueDate(windows, from, reachedOn);
    if (when === null || when.due > endsOn) return found;
    found.push({
      treeId: tree.id,
      treeRow: tree.row,
      cause: isGrowth ? "growth" : "return",
      due: when.due,
      crew: last?.crew ?? crewForLater(later, setting, standard),
      hours: last?.hours ?? visitHoursOf(stemDiameterM(tree), standard),
      doseShare: isGrowth ? null : (option?.doseShare ?? null),
    });
    // One visit clears what has grown in by then as well.
    firstGrowth = null;
    wearsOff = yearsOn(when.due, lastsYears);
    from = addMonths(when.due, 12);
  }
}

/** The last visit that clears something; null where there is none. */
const lastClearance = (visits: readonly Visit[]): Visit | null =>
  visits.findLast(({ tasks }) => tasks.some(({ conflictIds }) => conflictIds.length > 0)) ?? null;

const notBefore = (date: IsoDate, first: IsoDate): IsoDate => (date >= first ? date : first);

const yearsOn = (date: IsoDate, years: number): IsoDate => addDays(date, Math.round(years * 365.25));

/** A crew for work nobody has measured yet: line clearance near a line, from the ground only where the height to free is in reach. */
function crewForLater(later: readonly ConflictRecord[], setting: TreeSetting | null, standard: Standard): Crew {
  const near = setting?.conductor ?? null;
  if (later.some(({ kind }) => kind === "conductor") || (near !== null && near.crownGapM < near.approachM)) {
    return "line-clearance";
  }
  const isLow = later.every(({ clearToM, datumM }) => clearToM + datumM <= standard.crew.groundReachM);
  return isLow && setting?.conductorsKnown === true ? "ground" : "aerial";
}
