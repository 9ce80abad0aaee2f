import type { Drawing } from "../crown/drawing.ts";
import { drawPlanInset } from "../crown/plan-inset.ts";
import { sizeText } from "../crown/section/dimensions.ts";
import type { SectionSubject } from "../crown/section/subject.ts";
import { drawSection } from "../crown/section-drawing.ts";
import { nearestCaseSentence } from "../crown/wire/load-case-words.ts";
import type { ConflictRecord } from "../model/conflict.ts";
import type { Plan } from "../model/plan.ts";
import type { NoticeRules } from "../standard/notice-rules.ts";
import { bearingGapDeg } from "../units/compass.ts";
import { formatDate } from "../units/format-date.ts";
import { formatDiameter, formatDiameters, formatDose, formatLength, formatShare } from "../units/format-length.ts";
import type { ZoneCautions } from "./cautions.ts";
import { cutLines } from "./cut-guide.ts";
import { dropZoneM } from "./drop-zone.ts";
import { treeNoticeText } from "./notice-lines.ts";
import { CREW_WORDS, capitalized, placeText, treeName, unique, whatText } from "./packet-words.ts";
import type { SeasonNotes } from "./season-notes.ts";
import { tradeOffText } from "./trade-off.ts";
import type { ZoneStop } from "./zone-stops.ts";

/** One tree's half page; a third of one where nothing stands beside it that the work is for. */
export interface TreeCard {
  readonly number: number;
  readonly treeId: string;
  readonly name: string;
  readonly place: string;
  /** Crew with hours, and last date with the number of the visit: the card's upper right corner. */
  readonly crew: string;
  readonly due: string;
  /** The section toward the conflict that the visit works on first, then one for each other conflict it works on, up to four in all. */
  readonly sections: readonly Drawing[];
  readonly inset: Drawing;
  /** Whether the small plan is printed: it says nothing of a tree that is worked on for itself, which so takes a third of a page. */
  readonly hasPlan: boolean;
  readonly facts: readonly (readonly [label: string, value: string])[];
  readonly texts: readonly (readonly [label: string, text: string])[];
  /** Cautions of this tree; of those that other trees share only the beginning, of those that all share nothing: they stand on the page of cautions. */
  readonly cautions: readonly string[];
  /** What is to be measured on site and what stays open. */
  readonly notes: readonly string[];
  /** Says where the shared cautions are; null when there are none. */
  readonly alsoSee: string | null;
  /** Boxes to tick. */
  readonly ticks: readonly string[];
  /** Lines to fill in by hand. */
  readonly fills: readonly string[];
}

/** Size of a card's only section, of each of several, and of the plan, in millimeters; two such cards fill a page. */
export const SECTION_MM: readonly [widthMm: number, heightMm: number] = [96, 64];
export const SMALL_SECTION_MM: readonly [widthMm: number, heightMm: number] = [60, 45];
export const INSET_MM = 25;
const MOST_SECTIONS = 4;

/** A stop's card, with what of the zone's cautions belongs on it. */
export function treeCard(
  plan: Plan,
  stop: ZoneStop,
  cautions: ZoneCautions,
  seasons: SeasonNotes,
  rules: NoticeRules,
): TreeCard {
  const { tree, visit, prescription, units } = stop;
  const subjects = sectionSubjects(plan, stop);
  const hasPlan = subjects.some(({ conflict }) => conflict !== null);
  const [widthMm, heightMm] = subjects.length === 1 && hasPlan ? SECTION_MM : SMALL_SECTION_MM;
  const sections = subjects.map((subject) => drawSection(subject, { units, widthMm, heightMm }));
  const { dangers, notes } = cautions.onCard(stop);
  const due = `${visit.overdue ? "overdue since" : "by"} ${formatDate(visit.due)}`;
  const dbh = tree.dbhM === null ? "unknown" : `${formatDiameter(tree.dbhM, units)}${mark(tree.dbhBasis)}`;
  return {
    number: stop.number,
    treeId: tree.id,
    name: treeName(tree),
    place: placeText(tree),
    crew: `${CREW_WORDS[visit.crew]}, ${hoursText(visit.hours)}`,
    due: prescription.visits.length === 1 ? due : `visit ${visit.number} of ${prescription.visits.length}, ${due}`,
    sections,
    inset: drawPlanInset(subjects[0]!, { units, sizeMm: INSET_MM }),
    hasPlan,
    facts: [
      ["Stem", dbh],
      ["Height", sizeText(tree.height, units)],
      ["Crown base", sizeText(tree.crownBase, units)],
      ["Mean radius", sizeText(tree.radius, units)],
      [
        "Live crown",
        `${formatShare(prescription.liveCrownRatioBefore)} of height, then ${formatShare(prescription.liveCrownRatioAfter)}`,
      ],
      ["Drop zone", `${formatLength(dropZoneM(tree), units)} from the trunk`],
    ],
    texts: textsOf(stop, seasons, rules),
    cautions: dangers,
    notes,
    alsoSee: cautions.hasForAll ? "In full, with those for all trees: page of cautions." : null,
    ticks: ["done", "partly", "not done"],
    fills: ["date", "live crown taken %", "new crown base", "headroom measured", "reason, notes"],
  };
}

/** What a stop's sections show, the conflict worked on first, up to four; the tree alone where there is no conflict. */
export function sectionSubjects(plan: Plan, stop: ZoneStop): SectionSubject[] {
  const shown = conflictsShown(stop).slice(0, MOST_SECTIONS);
  return shown.length === 0 ? [subjectOf(plan, stop, null)] : shown.map((one) => subjectOf(plan, stop, one));
}

const hoursText = (hours: number): string => `${hours.toFixed(1)} h`;
const mark = (basis: string | null): string => (basis === null || basis === "measured" ? "" : ` ${basis}`);

function textsOf(stop: ZoneStop, seasons: SeasonNotes, rules: NoticeRules): (readonly [string, string])[] {
  const { visit, prescription, units } = stop;
  const { tasks } = visit;
  const chosen = prescription.options[prescription.chosen ?? -1];
  const texts: (readonly [string, string])[] = [
    ["What", `${whatText(tasks)}. Takes ${formatDose(visit.doseShare)}.`],
    ["Where", unique(tasks.map(({ where }) => sentence(where))).join(" ")],
    ["Why", unique([...tasks.map(({ cause }) => sentence(cause)), ...nearestCases(stop)]).join(" ")],
    ["How", cutLines(stop)],
  ];
  const limbs = tasks.map(({ limbDiameterM }) => limbDiameterM).filter(([, largest]) => largest > 0);
  if (limbs.length > 0) {
    const range = [Math.min(...limbs.map(([low]) => low)), Math.max(...limbs.map(([, high]) => high))] as const;
    texts.push(["Limbs", `${formatDiameters(range, units)} thick where cut, estimated.`]);
  }
  texts.push(["Lasts", chosen === undefined ? "" : tradeOffText(chosen)]);
  texts.push(["Season", seasonText(stop, seasons.onCard(stop))]);
  texts.push(["Before work", treeNoticeText(stop, rules)]);
  // Conflicts share their doubts sentence by sentence.
  const doubts = unique(conflictsOf(stop).flatMap(({ doubt }) => doubt?.split(/(?<=\.) /).map(sentence) ?? []));
  if (doubts.length > 0) texts.push(["Check", `${doubts.join(" ")} Measure before cutting.`]);
  if (visit.openAfter.length > 0) texts.push(["Still open", visit.openAfter.map(sentence).join(" ")]);
  return texts.filter(([, text]) => text !== "");
}

/** The dates in which the work is allowed and why; where the reason is null, where it stands. */
export function seasonText({ visit }: ZoneStop, reason: string | null): string {
  const dates = `${formatDate(visit.windowStart)} to ${formatDate(visit.windowEnd)}`;
  return reason === null ? `${dates}; why: page of cautions.` : `${dates}. ${sentence(reason)}`.trim();
}

/** A text with a capital at its beginning and a full stop at its end; empty stays empty. */
function sentence(text: string): string {
  const trimmed = capitalized(text.trim());
  return trimmed === "" || ".!?".includes(trimmed.at(-1)!) ? trimmed : `${trimmed}.`;
}

/** In which weather the wires come nearest that the visit works on. */
const nearestCases = (stop: ZoneStop): string[] =>
  conflictsOf(stop).flatMap(({ loadCase }) => (loadCase === null ? [] : [nearestCaseSentence(loadCase, stop.units)]));

/** Conflicts the visit works on; all of the tree's when its tasks name none. */
function conflictsOf(stop: ZoneStop): readonly ConflictRecord[] {
  const worked = new Set(stop.visit.tasks.flatMap(({ conflictIds }) => conflictIds));
  const own = stop.conflicts.filter(({ conflictId }) => worked.has(conflictId));
  return own.length > 0 ? own : stop.conflicts;
}

/**
 * The conflicts of a visit, the one most below its minimum first. Of several with
 * pieces of one thing in one direction, as where a street is mapped in blocks, only the first is shown.
 */
function conflictsShown(stop: ZoneStop): ConflictRecord[] {
  return conflictsOf(stop)
    .map((conflict, at) => ({ conflict, at }))
    .sort((a, b) => b.conflict.encroachmentM - a.conflict.encroachmentM || a.at - b.at)
    .map(({ conflict }) => conflict)
    .filter((conflict, at, sorted) => !sorted.slice(0, at).some((before) => isSameView(before, conflict)));
}

/** Bearings nearer than this give sections that look the same. */
const SAME_VIEW_DEG = 30;

const isSameView = (one: ConflictRecord, other: ConflictRecord): boolean =>
  one.kind === other.kind &&
  one.withName === other.withName &&
  bearingGapDeg(one.bearingDeg, other.bearingDeg) < SAME_VIEW_DEG;

function subjectOf(plan: Plan, stop: ZoneStop, conflict: ConflictRecord | null): SectionSubject {
  const thing = conflict === null ? undefined : stop.things.get(conflict.conflictId);
  const triangle = conflict === null ? undefined : plan.sight.find(({ id }) => id === conflict.withId);
  return {
    tree: stop.tree,
    conflict,
    prescription: { ...stop.prescription, tasks: stop.visit.tasks },
    setting: stop.setting,
    ...(thing?.width == null ? {} : { widthOfThingM: thing.width.typicalM }),
    ...(thing?.heightM == null ? {} : { heightOfThingM: thing.heightM }),
    ...(triangle === undefined ? {} : { windowLowM: triangle.windowLowM }),
  };
}
