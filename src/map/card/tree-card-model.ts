import { nearestCaseSentence } from "../../core/crown/wire/load-case-words.ts";
import type { ConflictRecord } from "../../core/model/conflict.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { Prescription, PruningOption } from "../../core/model/prescription.ts";
import type { Certainty, Remedy, Urgency } from "../../core/model/terms.ts";
import type { Size, Tree } from "../../core/model/trees.ts";
import { tradeOffWords } from "../../core/prescription/trade-off-words.ts";
import { formatDate } from "../../core/units/format-date.ts";
import {
  type DisplayUnits,
  formatDiameter,
  formatDiameters,
  formatLength,
  formatShare,
} from "../../core/units/format-length.ts";
import { wholeYears } from "../../core/units/format-years.ts";
import { sentenceInUnits } from "../../core/units/sentence-in-units.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import type { Words } from "../words.ts";
import { sightNotes } from "./sight-notes.ts";
import { type TreeColumns, treeColumns } from "./tree-columns.ts";

/** What a tree's card says, as plain texts in the reader's units. */
export interface TreeCardModel {
  readonly title: string;
  readonly treeId: string;
  readonly species: string | null;
  readonly place: string | null;
  readonly urgency: Urgency;
  readonly remedy: Remedy;
  readonly certainty: Certainty;
  readonly bearingDeg: number;
  readonly due: string;
  readonly overdue: boolean;
  readonly why: string;
  readonly refer: string | null;
  readonly cautions: readonly string[];
  readonly figures: readonly { name: string; text: string; interval: string; basis: string; source: string }[];
  readonly conflicts: readonly ConflictLine[];
  readonly options: readonly OptionLine[];
  readonly doseLimit: string | null;
  readonly visits: readonly VisitLine[];
  readonly notKnown: readonly string[];
  readonly columns: TreeColumns;
}

export interface ConflictLine {
  readonly what: string;
  readonly certainty: string;
  readonly figures: string;
  readonly notes: readonly string[];
}

export interface OptionLine {
  readonly way: string;
  readonly takes: string;
  readonly lasts: string;
  readonly limbs: string;
  /** The same way taken less or more far: how long each lasts and takes; empty where there is no choice. */
  readonly tradeOff: string;
  readonly isPrescribed: boolean;
  readonly ruledOutBy: string | null;
}

export interface VisitLine {
  readonly when: string;
  readonly facts: string;
  readonly reason: string;
  readonly tasks: readonly { what: string; cause: string; where: string; how: string }[];
  readonly openAfter: readonly string[];
}

/** The card of a tree; null when the plan has no such tree. Of the columns that feed no field it holds the values of `shownColumns` only. */
export function treeCardModel(
  opened: OpenedPlan,
  treeId: string,
  units: DisplayUnits,
  words: Words,
  shownColumns: ReadonlySet<string> = new Set(),
): TreeCardModel | null {
  const { plan } = opened;
  const row = plan.trees.findIndex((one) => one.id === treeId);
  const tree = plan.trees[row];
  const prescription = plan.prescriptions[row];
  if (tree === undefined || prescription === undefined) return null;
  const conflicts = plan.conflicts.filter((conflict) => conflict.treeId === treeId);
  const next = prescription.visits[0];
  const said = (sentence: string) => unbrokenFigures(sentenceInUnits(sentence, plan.options.units, units));
  return {
    title:
      tree.commonName === null && tree.species === null ? treeId : capitalized(tree.commonName ?? tree.species ?? ""),
    treeId,
    species: tree.commonName === null ? null : tree.species,
    place: tree.address ?? tree.street,
    urgency: prescription.urgency,
    remedy: prescription.remedy,
    certainty: surest(conflicts),
    bearingDeg: prescription.bearingDeg ?? 0,
    due: next === undefined ? words.card.noDate : `${words.card.due} ${formatDate(next.due)}`,
    overdue: prescription.overdue,
    why: said(prescription.why),
    refer: prescription.refer === null ? null : said(prescription.refer.reason),
    cautions: prescription.cautions.map(said),
    figures: figuresOf(tree, prescription, units, words),
    conflicts: conflicts.map((conflict) => conflictLine(conflict, plan, units, words)),
    options: prescription.options.map((option, index) =>
      optionLine(option, index === prescription.chosen, units, words),
    ),
    doseLimit: prescription.options.length === 0 ? null : `${words.card.doseLimit} ${prescription.doseLimitReason}.`,
    visits: prescription.visits.map((visit) => visitLine(visit, plan, units, words)),
    notKnown: notKnownOf(opened, row, words),
    columns: treeColumns(opened, row, shownColumns),
  };
}

/** The surest certainty among conflicts; `confirmed` where there is none, so that the mark is whole. */
function surest(conflicts: readonly ConflictRecord[]): Certainty {
  const has = (certainty: Certainty) => conflicts.some((conflict) => conflict.certainty === certainty);
  if (conflicts.length === 0 || has("confirmed")) return "confirmed";
  return has("probable") ? "probable" : "possible";
}

function figuresOf(tree: Tree, prescription: Prescription, units: DisplayUnits, words: Words) {
  const sized = (name: string, size: Size) => ({
    name,
    text: formatLength(size.valueM, units),
    interval:
      size.highM - size.lowM < 0.05
        ? ""
        : `${formatLength(size.lowM, units)} ${words.card.to} ${formatLength(size.highM, units)}`,
    basis: words.basis[size.basis],
    source: size.source,
  });
  const { liveCrownRatioBefore, liveCrownRatioAfter } = prescription;
  const ratio = liveCrownRatioBefore.toFixed(2);
  const ratioAfter = liveCrownRatioAfter.toFixed(2);
  return [
    sized(words.card.height, tree.height),
    sized(words.card.crownBase, tree.crownBase),
    sized(words.card.crownRadius, tree.radius),
    {
      name: words.card.trunk,
      text: tree.dbhM === null ? words.card.notGiven : formatDiameter(tree.dbhM, units),
      interval: "",
      basis: tree.dbhBasis === null ? "" : words.basis[tree.dbhBasis],
      source: "",
    },
    {
      name: words.card.crownRatio,
      text: ratio,
      interval: ratio === ratioAfter ? "" : `${ratioAfter} ${words.card.after}`,
      basis: "",
      source: "",
    },
  ];
}

function conflictLine(conflict: ConflictRecord, plan: Plan, units: DisplayUnits, words: Words): ConflictLine {
  const { card } = words;
  const length = (lengthM: number) => unbroken(formatLength(lengthM, units));
  const free =
    conflict.measuredM < 0
      ? `${length(-conflict.measuredM)} ${card.past}`
      : `${length(conflict.measuredM)} ${card.free}`;
  const notes: string[] = [];
  if (conflict.reachedOn > plan.options.asOf)
    notes.push(`${capitalized(card.reachedOn)} ${formatDate(conflict.reachedOn)}.`);
  notes.push(...sightNotes(conflict, plan, units, words));
  if (conflict.loadCase !== null) notes.push(unbrokenFigures(nearestCaseSentence(conflict.loadCase, units)));
  if (conflict.hazard !== null) notes.push(`${capitalized(card.hazard)}.`);
  if (conflict.doubt !== null) notes.push(unbrokenFigures(sentenceInUnits(conflict.doubt, plan.options.units, units)));
  return {
    what: [capitalized(words.kind[conflict.kind]), conflict.withName].filter((text) => text !== null).join(", "),
    certainty: words.certainty[conflict.certainty],
    figures: `${free}, ${length(conflict.minimumM)} ${card.needed}, ${card.clearTo} ${length(conflict.clearToM)}`,
    notes,
  };
}

function optionLine(option: PruningOption, isPrescribed: boolean, units: DisplayUnits, words: Words): OptionLine {
  const figureM = option.remedy === "lift" ? option.liftToM : option.remedy === "shorten" ? option.shortenM : null;
  const figure =
    figureM === null
      ? ""
      : ` ${option.remedy === "lift" ? `${words.card.to} ` : ""}${unbroken(formatLength(figureM, units))}`;
  return {
    way: `${capitalized(words.remedy[option.remedy])}${figure}`,
    takes: formatShare(option.doseShare),
    lasts: yearsText(option.lastsYears, words),
    limbs: unbroken(formatDiameters(option.limbDiameterM, units)),
    tradeOff: unbrokenFigures(tradeOffWords(option)),
    isPrescribed,
    ruledOutBy: option.ruledOutBy,
  };
}

/** Whole years, rounded down as in the sentences: what is promised is held. */
function yearsText(years: number, words: Words): string {
  if (!(years >= 0)) return "–";
  const whole = wholeYears(years);
  if (whole === 0) return words.card.underYear;
  return `${whole} ${whole === 1 ? words.card.year : words.card.years}`;
}

function visitLine(visit: Prescription["visits"][number], plan: Plan, units: DisplayUnits, words: Words): VisitLine {
  const { card } = words;
  const said = (sentence: string) => sentenceInUnits(sentence, plan.options.units, units);
  return {
    when: `${formatDate(visit.windowStart)} ${card.to} ${formatDate(visit.windowEnd)}`,
    facts: [
      `${card.due} ${formatDate(visit.due)}`,
      words.crew[visit.crew],
      `${visit.hours.toFixed(1)} ${card.hours}`,
      `${card.takes.toLowerCase()} ${formatShare(visit.doseShare)}`,
    ].join(" · "),
    reason: visit.windowReason,
    tasks: visit.tasks.map((task) => ({
      what: capitalized(words.remedy[task.remedy]),
      cause: unbrokenFigures(said(task.cause)),
      where: unbrokenFigures(said(task.where)),
      how: unbrokenFigures(`${said(task.how)} ${card.limbs}: ${formatDiameters(task.limbDiameterM, units)}.`),
    })),
    openAfter: visit.openAfter,
  };
}

function notKnownOf(opened: OpenedPlan, row: number, words: Words): string[] {
  const { card } = words;
  const setting = opened.plan.settings[row];
  const prescription = opened.plan.prescriptions[row];
  const lines: string[] = [];
  if (setting !== undefined && !setting.conductorsKnown) lines.push(card.noConductors);
  const kinds = (setting?.notChecked ?? []).filter((kind) => kind !== "conductor" || setting?.conductorsKnown === true);
  if (kinds.length > 0) lines.push(`${card.notChecked} ${kinds.map((kind) => words.kind[kind]).join(", ")}.`);
  if (prescription?.openUntilYear != null) lines.push(`${card.openUntil} ${prescription.openUntilYear}.`);
  return lines;
}

/** The text with its first letter in upper case. */
export const capitalized = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** A sentence whose figures keep their units on the same line. */
export const unbrokenFigures = (sentence: string): string =>
  sentence
    .replace(/(\d) (ft|in|m|cm|h|%|mph|km\/h|Pa|°F|°C)(?![A-Za-z])/g, "$1\u00a0$2")
    .replace(/\u00a0ft (\d)/g, "\u00a0ft\u00a0$1");

/** A figure and its unit, kept on one line. */
const unbroken = (text: string): string => text.replaceAll(" ", "\u00a0");
