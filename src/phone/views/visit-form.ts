import type { PhonePage, PhoneStop } from "../../core/packet/phone/phone-page.ts";
import { NOT_DONE_REASONS, type NotDoneReason, OUTCOMES, type Outcome } from "../../core/plan/completion/completion.ts";
import { formatLength, formatShare } from "../../core/units/format-length.ts";
import { button, element } from "../element.ts";
import { FOUND_ON_SITE, type FoundOnSite } from "../found-on-site.ts";
import { SAID_ON_SITE, type SaidOnSite, type VisitMark } from "../keep/marks.ts";
import type { Report } from "../keep/report.ts";
import { readDoseShare, readHeightM } from "../read-figures.ts";
import { WORDS } from "../words.ts";
import { choice, photoField, textArea, textField } from "./fields.ts";
import { todayHere } from "./warnings.ts";

/** What is told about a visit: reason, figures, notes, photo names. The reason is asked for only where one is needed. */
export function visitForm(page: PhonePage, stop: PhoneStop, report: Report): HTMLElement {
  const { fields } = WORDS;
  const mark = report.visit(stop.visitId);
  const change = (part: Partial<VisitMark>) => report.changeVisit(stop.visitId, part);
  const unit = WORDS.units[page.units];
  const sayHeight = (text: string) => {
    if (text.trim() === "") return null;
    const heightM = readHeightM(text, page.units);
    if (heightM === null) return { text: WORDS.notRead, isWrong: true };
    const isAbove = heightM > stop.heightM;
    const read = WORDS.readAs(formatLength(heightM, page.units));
    return { text: isAbove ? `${read} ${WORDS.aboveTop}` : read, isWrong: isAbove };
  };
  /** The tree may be taller than the plan has it: that is what is measured. */
  const sayTall = (text: string) => {
    if (text.trim() === "") return null;
    const heightM = readHeightM(text, page.units);
    if (heightM === null) return { text: WORDS.notRead, isWrong: true };
    return { text: WORDS.readAs(formatLength(heightM, page.units)), isWrong: false };
  };
  const sayDose = (text: string) => {
    const planned = WORDS.dosePlanned(stop.dose);
    if (text.trim() === "") return { text: planned, isWrong: false };
    const share = readDoseShare(text);
    if (share === null) return { text: WORDS.notRead, isWrong: true };
    return { text: `${WORDS.readAs(formatShare(share))} ${planned}`, isWrong: false };
  };
  const isLook = page.isInspection === true;
  const height = (id: "crownBase" | "headroom" | "height" | "radius") =>
    textField({
      id,
      label: isLook || id === "height" || id === "radius" ? WORDS.look[id] : fields[id],
      unit,
      value: mark[id],
      onInput: (typed) => change({ [id]: typed }),
      say: id === "height" ? sayTall : sayHeight,
    });
  const needsReason = mark.outcome === "partly" || mark.outcome === "not-done";
  return element(
    "section",
    { class: "form", "aria-labelledby": "after" },
    element("h2", { id: "after", tabindex: -1 }, isLook ? WORDS.look.after : WORDS.tree.after),
    element("p", { class: "quiet" }, WORDS.tree.markNote),
    needsReason
      ? choice(
          "reason",
          fields.reason,
          WORDS.chooseReason,
          NOT_DONE_REASONS.map((one) => [one, WORDS.reason[one]] as const),
          mark.reason,
          (reason) => change({ reason: reason as NotDoneReason | "" }),
        )
      : null,
    element(
      "div",
      { class: "fields" },
      isLook ? [height("height"), height("radius")] : null,
      height("crownBase"),
      height("headroom"),
      isLook
        ? null
        : textField({
            id: "dose",
            label: fields.dose,
            value: mark.dose,
            inputMode: "decimal",
            onInput: (dose) => change({ dose }),
            say: sayDose,
          }),
      textField({
        id: "date",
        label: fields.date,
        value: mark.date || todayHere(),
        type: "date",
        onInput: (date) => change({ date }),
      }),
    ),
    isLook
      ? choice(
          "found",
          WORDS.look.found,
          WORDS.look.chooseFound,
          FOUND_ON_SITE.map((one) => [one, WORDS.look.foundWords[one]] as const),
          mark.found,
          (found) => change({ found: found as FoundOnSite | "" }),
        )
      : null,
    textArea({
      id: "notes",
      label: mark.outcome === "partly" ? fields.notesPartly : fields.notes,
      value: mark.notes,
      onInput: (notes) => change({ notes }),
    }),
    isLook ? null : wordPart(mark, change),
    photoField("photos", mark.photos, (photos) => change({ photos })),
    mark.outcome === ""
      ? null
      : button(WORDS.clearOutcome, () => change({ outcome: "", reason: "" }), { class: "quiet", "data-redraw": true }),
  );
}

/** What the arborist on site says of the tree itself, for the plan. */
function wordPart(mark: VisitMark, change: (part: Partial<VisitMark>) => void): HTMLElement {
  const { word } = WORDS;
  return element(
    "details",
    { open: mark.word !== "" },
    element("summary", {}, word.title),
    choice(
      "word",
      word.what,
      word.nothing,
      SAID_ON_SITE.map((one) => [one, word.kinds[one]] as const),
      mark.word,
      (said) => change({ word: said as SaidOnSite | "" }),
    ),
    textArea({ id: "word-text", label: word.text, value: mark.wordText, onInput: (wordText) => change({ wordText }) }),
    element("p", { class: "quiet" }, word.says),
  );
}

/** The answers, always under the thumb: three of work, two of a look. */
export function outcomeBar(page: PhonePage, stop: PhoneStop, report: Report): HTMLElement {
  const { outcome } = report.visit(stop.visitId);
  return element(
    "fieldset",
    { class: "outcomes" },
    element("legend", { class: "hidden" }, WORDS.outcomeLabel),
    OUTCOMES.filter((one) => one !== "partly" || page.isInspection !== true).map((one) => {
      const input = element("input", { type: "radio", name: "outcome", id: `outcome-${one}`, value: one });
      input.checked = one === outcome;
      input.addEventListener("change", () => choose(stop, report, one));
      return element("div", {}, input, element("label", { for: input.id, "data-outcome": one }, wordOf(one, page)));
    }),
  );
}

const wordOf = (outcome: Outcome, { isInspection }: PhonePage): string =>
  isInspection === true && outcome !== "partly" ? WORDS.look[outcome] : WORDS.outcome[outcome];

function choose({ visitId }: PhoneStop, report: Report, outcome: Outcome): void {
  const { date, reason } = report.visit(visitId);
  report.changeVisit(visitId, { outcome, date: date || todayHere(), reason: outcome === "done" ? "" : reason });
}
