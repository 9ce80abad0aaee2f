import type { PhonePage } from "../../core/packet/phone/phone-page.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { button, element } from "../element.ts";
import type { Report } from "../keep/report.ts";
import { isDark, turnTheme } from "../theme.ts";
import { WORDS } from "../words.ts";
import { drawingFigure } from "./drawing-figure.ts";
import { textField } from "./fields.ts";
import { manifestCheck } from "./manifest-check.ts";
import { pageHead } from "./page-head.ts";
import { ageDays, todayHere } from "./warnings.ts";

/** The zone as a whole: cautions first, then traffic, emergency lines to fill in, key figures and the packet's age. */
export function zoneSheet(page: PhonePage, report: Report): HTMLElement {
  const { zone: words } = WORDS;
  const theme = button(isDark() ? words.theme.toLight : words.theme.toDark, () => {
    turnTheme();
    theme.textContent = isDark() ? words.theme.toLight : words.theme.toDark;
  });
  theme.classList.add("quiet");
  return element(
    "section",
    { "aria-labelledby": "title" },
    pageHead(page, report),
    element(
      "section",
      { class: "cautions" },
      element("h2", {}, words.cautions),
      list(page.notChecked === null ? page.cautions : [...page.cautions, page.notChecked]),
      page.sharedCautions.length === 0 ? null : [element("h3", {}, words.shared), list(page.sharedCautions)],
    ),
    element("h2", {}, words.equipment),
    list(page.equipment),
    element("h2", {}, words.emergency),
    element("p", { class: "quiet" }, words.emergencyNote),
    page.location === "" ? null : element("p", {}, page.location),
    element(
      "div",
      { class: "fields" },
      page.emergency.map((label, at) => emergencyLine(label, at, report)),
    ),
    trafficPart(page),
    element("h2", {}, words.figures),
    element(
      "dl",
      { class: "facts" },
      page.figures.map(([label, value]) => [element("dt", {}, label), element("dd", {}, value)]),
    ),
    element("h2", {}, words.packet),
    element("p", {}, WORDS.plan(page.planId, page.zoneId)),
    element("p", {}, `${WORDS.revision(page.revision, WORDS.date(formatDate(page.asOf)))}.`),
    element("p", {}, WORDS.age(ageDays(page, todayHere()))),
    manifestCheck(page),
    element("p", {}, theme),
  );
}

/** What is closed and for how long, the sketch of one set-up with names only, and its figures. */
function trafficPart({
  traffic: { title, road, note, sketch, facts, assumptions },
}: PhonePage): readonly (HTMLElement | null)[] {
  const { zone: words } = WORDS;
  return [
    element("h2", {}, words.closure),
    element("p", {}, element("strong", {}, road === null ? title : `${title}: ${road}`)),
    element("p", {}, note),
    sketch === null ? null : drawingFigure(sketch, "closure", words.sketch),
    sketch === null ? null : element("p", { class: "quiet" }, words.sketchNote),
    facts.length === 0
      ? null
      : element(
          "dl",
          { class: "facts" },
          facts.map(([label, value]) => [element("dt", {}, label), element("dd", {}, value)]),
        ),
    list(assumptions),
  ];
}

function emergencyLine(label: string, at: number, report: Report): HTMLElement {
  return textField({
    id: `emergency-${at}`,
    label,
    value: report.marks.zone.emergency[at] ?? "",
    onInput: (value) => {
      const lines = [...report.marks.zone.emergency];
      while (lines.length < at) lines.push("");
      lines[at] = value;
      report.changeZone({ emergency: lines });
    },
  });
}

const list = (texts: readonly string[]): HTMLElement | null =>
  texts.length === 0
    ? null
    : element(
        "ul",
        {},
        texts.map((text) => element("li", {}, text)),
      );
