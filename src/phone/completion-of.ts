import type { PhonePage } from "../core/packet/phone/phone-page.ts";
import {
  type AddedTree,
  COMPLETION_VERSION,
  type Completion,
  type ReportedHazard,
  type VisitCompletion,
} from "../core/plan/completion/completion.ts";
import { isoDate, parseIsoDate } from "../core/units/calendar.ts";
import type { AddedMark, Marks, VisitMark } from "./keep/marks.ts";
import { readDoseShare, readHeightM, readHours, readStemM } from "./read-figures.ts";
import { WORDS } from "./words.ts";
import { wordsOfLook } from "./words-of-look.ts";
import { wordsOfWork } from "./words-of-work.ts";

/** A visit that cannot go into the file as it stands. */
export interface Missing {
  readonly number: number;
  readonly what: string;
}

/**
 * The completion that the marks say. A figure that cannot be read goes into the notes as it was typed. Visits without an outcome are left
 * out; those with something else typed, or without the reason they need, are told in `missing`.
 */
export function completionOf(
  page: PhonePage,
  marks: Marks,
  { appVersion, exportedAt }: { readonly appVersion: string; readonly exportedAt: string },
): { completion: Completion; missing: readonly Missing[] } {
  const { zone } = marks;
  const isLook = page.isInspection === true;
  const missing: Missing[] = [];
  const visits: VisitCompletion[] = [];
  for (const { visitId, treeId, number } of page.stops) {
    const mark = marks.visits.get(visitId);
    if (mark === undefined || isBlank(mark)) continue;
    if (mark.outcome === "") {
      missing.push({ number, what: WORDS.missing.outcome });
      continue;
    }
    if (mark.outcome !== "done" && mark.reason === "") {
      missing.push({ number, what: WORDS.missing.reason });
      continue;
    }
    if (mark.outcome !== "done" && mark.reason === "other" && mark.notes.trim() === "") {
      missing.push({ number, what: WORDS.missing.notes });
      continue;
    }
    const figures = new Figures();
    const crownBaseM = figures.read(WORDS.fields.crownBase, mark.crownBase, (text) => readHeightM(text, page.units));
    const headroomM = figures.read(WORDS.fields.headroom, mark.headroom, (text) => readHeightM(text, page.units));
    const doseShare = figures.read(WORDS.fields.dose, mark.dose, readDoseShare);
    visits.push({
      visitId,
      treeId,
      outcome: mark.outcome,
      reason: mark.outcome === "done" || mark.reason === "" ? null : mark.reason,
      date: parseIsoDate(mark.date) ?? isoDate((mark.at || exportedAt).slice(0, 10)),
      who: cut(zone.who, 256),
      crownBaseM,
      headroomM,
      doseShare,
      notes: figures.notes(mark.notes),
      photos: photosOf(mark.photos),
      recordedAt: mark.at || exportedAt,
    });
  }
  const figures = new Figures();
  const crewHours = figures.read(WORDS.fields.crewHours, zone.crewHours, readHours);
  const added = marks.added.filter(({ removed }) => !removed);
  const words = isLook ? wordsOfLook(page, marks, exportedAt) : wordsOfWork(page, marks, exportedAt);
  return {
    completion: {
      format: "boughline-completion",
      version: COMPLETION_VERSION,
      appVersion,
      planId: page.planId,
      revision: page.revision,
      zoneId: page.zoneId,
      reportId: marks.reportId,
      exportedAt,
      who: cut(zone.who, 256),
      crewHours,
      notes: figures.notes(zone.notes),
      visits: isLook ? [] : visits,
      addedTrees: added.filter(({ kind }) => kind === "tree").map((mark) => addedTree(mark, page, exportedAt)),
      hazards: added.filter(({ kind }) => kind === "hazard").map((mark) => hazard(mark, exportedAt)),
      ...(isLook || words.length > 0 ? { words } : {}),
    },
    missing,
  };
}

const isBlank = ({ outcome, crownBase, headroom, dose, height, radius, found, notes, photos }: VisitMark): boolean =>
  [outcome, crownBase, headroom, dose, height, radius, found, notes, photos].every((text) => text.trim() === "");

function addedTree(mark: AddedMark, page: PhonePage, exportedAt: string): AddedTree {
  const figures = new Figures();
  const dbhM = figures.read(WORDS.fields.stem, mark.dbh, (text) => readStemM(text, page.units));
  const heightM = figures.read(WORDS.fields.height, mark.height, (text) => readHeightM(text, page.units));
  return {
    addedId: mark.id,
    place: mark.place,
    species: cut(mark.species, 256),
    dbhM,
    heightM,
    notes: figures.notes(mark.notes),
    photos: photosOf(mark.photos),
    recordedAt: mark.at || exportedAt,
  };
}

const hazard = (mark: AddedMark, exportedAt: string): ReportedHazard => ({
  addedId: mark.id,
  place: mark.place,
  treeId: mark.treeId,
  notes: cut(mark.notes.trim(), 4000) || WORDS.hazardWithoutWords,
  photos: photosOf(mark.photos),
  recordedAt: mark.at || exportedAt,
});

const photosOf = (text: string): string[] =>
  text
    .split("\n")
    .map((name) => cut(name.trim(), 256))
    .filter((name) => name !== "")
    .slice(0, 100);

/** Cuts between characters, never inside one. */
const cut = (text: string, most: number): string =>
  text.length <= most ? text : [...text].slice(0, most).join("").slice(0, most);

/** Reads figures and remembers those that are none, so that they stay in the notes. */
class Figures {
  readonly #unread: string[] = [];

  read(label: string, text: string, reader: (text: string) => number | null): number | null {
    if (text.trim() === "") return null;
    const figure = reader(text);
    if (figure === null) this.#unread.push(WORDS.asTyped(label, text.trim()));
    return figure;
  }

  notes(notes: string): string {
    return cut([notes.trim(), ...this.#unread].filter((text) => text !== "").join("\n"), 4000);
  }
}
