import type { PhonePage } from "../../core/packet/phone/phone-page.ts";
import { button, element } from "../element.ts";
import type { Report } from "../keep/report.ts";
import { WORDS } from "../words.ts";
import { addedFields } from "./added-fields.ts";
import { exportPart } from "./export-part.ts";
import { textArea, textField } from "./fields.ts";
import { warningsOf } from "./warnings.ts";

export interface ReportActions {
  /** Asks for a place on the map for an added tree or hazard. */
  readonly pick: (addedId: string) => void;
  readonly add: (kind: "tree" | "hazard") => void;
}

/** What the crew hands in: who, what was added, and the file. */
export function reportSheet(page: PhonePage, report: Report, appVersion: string, actions: ReportActions): HTMLElement {
  const { report: words, fields } = WORDS;
  const { zone, added } = report.marks;
  return element(
    "section",
    { "aria-labelledby": "title" },
    element("h1", { id: "title", tabindex: -1 }, words.title),
    element("p", { class: "quiet" }, page.zoneName),
    warningsOf(page, report),
    element(
      "div",
      { class: "fields" },
      textField({ id: "who", label: fields.who, value: zone.who, onInput: (who) => report.changeZone({ who }) }),
      textField({
        id: "crew-hours",
        label: fields.crewHours,
        value: zone.crewHours,
        inputMode: "decimal",
        onInput: (crewHours) => report.changeZone({ crewHours }),
      }),
    ),
    textArea({
      id: "zone-notes",
      label: fields.zoneNotes,
      value: zone.notes,
      onInput: (notes) => report.changeZone({ notes }),
    }),
    element("h2", {}, words.added),
    added.filter(({ removed }) => !removed).map((mark) => addedFields(page, mark, report, actions.pick)),
    element(
      "p",
      { class: "row" },
      button(words.addTree, () => actions.add("tree"), { class: "quiet" }),
      button(words.addHazard, () => actions.add("hazard"), { class: "quiet" }),
    ),
    exportPart(page, report, appVersion),
  );
}
