import type { ArboristWord, MeasuredLength } from "../core/model/word.ts";
import type { PhonePage, PhoneStop } from "../core/packet/phone/phone-page.ts";
import { type IsoDate, isoDate, parseIsoDate } from "../core/units/calendar.ts";
import type { Marks, VisitMark } from "./keep/marks.ts";
import { readHeightM } from "./read-figures.ts";
import { shortHash } from "./short-hash.ts";
import { WORDS } from "./words.ts";

/** A figure that was typed and cannot be read goes into a note as it stands. */
const FIGURES: readonly (readonly [
  MeasuredLength,
  keyof Pick<VisitMark, "height" | "crownBase" | "radius" | "headroom">,
])[] = [
  ["height", "height"],
  ["crown-base", "crownBase"],
  ["crown-radius", "radius"],
  ["headroom", "headroom"],
];

/**
 * What was measured and found on an inspection round, as words: a measurement a figure, what was found of the conflicts that were only possible, and a note. The same marks give
 * the same words, so that a file sent twice says nothing twice; a figure that was changed is a later word. Trees that were not reached say why in a note.
 */
export function wordsOfLook(page: PhonePage, marks: Marks, exportedAt: string): ArboristWord[] {
  const by = marks.zone.who.trim() || `report ${marks.reportId}`;
  return page.stops.flatMap((stop) => {
    const mark = marks.visits.get(stop.visitId);
    if (mark === undefined || mark.outcome === "") return [];
    const on = parseIsoDate(mark.date) ?? isoDate((mark.at || exportedAt).slice(0, 10));
    return wordsOf(page, stop, mark, { on, by, reportId: marks.reportId });
  });
}

interface Saying {
  readonly on: IsoDate;
  readonly by: string;
  readonly reportId: string;
}

function wordsOf(
  page: PhonePage,
  { treeId }: PhoneStop,
  mark: VisitMark,
  { on, by, reportId }: Saying,
): ArboristWord[] {
  const words: ArboristWord[] = [];
  const unread: string[] = [];
  const said = (what: string) => ({
    wordId: `look-${reportId}-${treeId}-${what}`.slice(0, 256),
    treeId,
    visitId: null,
    on,
    by: by.slice(0, 256),
    why: WORDS.look.why,
    takenBack: null,
  });
  if (mark.outcome === "done") {
    for (const [of, field] of FIGURES) {
      const typed = mark[field].trim();
      if (typed === "") continue;
      const valueM = readHeightM(typed, page.units);
      if (valueM === null) unread.push(WORDS.asTyped(WORDS.look[field], typed));
      else words.push({ ...said(`${of}-${valueM}`), kind: "measurement", value: { of, valueM } });
    }
    const found = mark.found || "seen";
    words.push({ ...said(found), kind: "inspected", value: { conflictIds: [], found } });
  } else if (mark.reason !== "") unread.push(`${WORDS.look["not-done"]}: ${WORDS.reason[mark.reason]}`);
  const text = [mark.notes.trim(), ...unread]
    .filter((part) => part !== "")
    .join("\n")
    .slice(0, 2000);
  if (text !== "") words.push({ ...said(`note-${shortHash(text)}`), kind: "note", value: { text } });
  return words;
}
