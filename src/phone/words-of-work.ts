import type { ArboristWord } from "../core/model/word.ts";
import type { PhonePage } from "../core/packet/phone/phone-page.ts";
import { isoDate, parseIsoDate } from "../core/units/calendar.ts";
import type { Marks } from "./keep/marks.ts";
import { shortHash } from "./short-hash.ts";
import { WORDS } from "./words.ts";

/**
 * What the arborist on site says of trees beside their work, as words: a note that stays with the tree, or that it is not to be pruned and why. One without a text says
 * nothing yet. The same marks give the same words, so that a file sent twice says nothing twice.
 */
export function wordsOfWork(page: PhonePage, marks: Marks, exportedAt: string): ArboristWord[] {
  const by = (marks.zone.who.trim() || `report ${marks.reportId}`).slice(0, 256);
  return page.stops.flatMap(({ visitId, treeId }): ArboristWord[] => {
    const mark = marks.visits.get(visitId);
    const text = mark?.wordText.trim().slice(0, 2000) ?? "";
    if (mark === undefined || mark.word === "" || text === "") return [];
    const said = {
      wordId: `work-${marks.reportId}-${treeId}-${mark.word}-${shortHash(text)}`.slice(0, 256),
      treeId,
      visitId: null,
      on: parseIsoDate(mark.date) ?? isoDate((mark.at || exportedAt).slice(0, 10)),
      by,
      takenBack: null,
    };
    return mark.word === "note"
      ? [{ ...said, why: WORDS.word.why, kind: "note", value: { text } }]
      : [{ ...said, why: text, kind: "do-not-prune", value: { until: null } }];
  });
}
