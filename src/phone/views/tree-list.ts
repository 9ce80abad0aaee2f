import type { PhonePage, PhoneStop } from "../../core/packet/phone/phone-page.ts";
import { element } from "../element.ts";
import type { Report } from "../keep/report.ts";
import { WORDS } from "../words.ts";
import { numberBadge } from "./number-badge.ts";
import { pageHead } from "./page-head.ts";

/** The order of work: one line a tree, its number, what is done to it and how it went. */
export function treeList(page: PhonePage, report: Report): HTMLElement {
  const marked = page.stops.filter(({ visitId }) => report.visit(visitId).outcome !== "").length;
  return element(
    "section",
    { "aria-labelledby": "title" },
    pageHead(page, report),
    element(
      "p",
      { class: "progress" },
      element("progress", { max: Math.max(1, page.stops.length), value: marked, "aria-labelledby": "marked" }),
      element("span", { id: "marked" }, WORDS.progress(marked, page.stops.length)),
    ),
    element(
      "ol",
      { class: "trees" },
      page.stops.map((stop) => line(stop, report)),
    ),
  );
}

function line(stop: PhoneStop, report: Report): HTMLElement {
  const { outcome } = report.visit(stop.visitId);
  const state = outcome === "" ? WORDS.open : WORDS.outcome[outcome];
  const urgency = stop.overdue ? WORDS.overdue : WORDS.urgency[stop.urgency];
  return element(
    "li",
    {},
    element(
      "a",
      { href: `#tree/${stop.number}`, "data-outcome": outcome === "" ? "open" : outcome },
      numberBadge(stop.number, outcome, stop.urgency),
      element(
        "span",
        { class: "words" },
        element("strong", {}, stop.name),
        element("span", { class: "quiet" }, `${stop.place} · ${stop.treeId}`),
        element("span", {}, `${stop.what} · ${stop.dose} · ${urgency}`),
      ),
      element("span", { class: "state" }, state),
    ),
  );
}
