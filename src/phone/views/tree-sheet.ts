import type { PhonePage, PhoneStop } from "../../core/packet/phone/phone-page.ts";
import { element } from "../element.ts";
import type { Report } from "../keep/report.ts";
import { WORDS } from "../words.ts";
import { drawingFigure } from "./drawing-figure.ts";
import { numberBadge } from "./number-badge.ts";
import { outcomeBar, visitForm } from "./visit-form.ts";

/** One tree: what, where, how far and how, its drawings and cautions, and the form for what was done. */
export function treeSheet(page: PhonePage, stop: PhoneStop, report: Report, onHazard: () => void): HTMLElement {
  const { tree: words } = WORDS;
  const hazard = element("button", { type: "button", class: "quiet" }, words.hazard);
  hazard.addEventListener("click", onHazard);
  return element(
    "article",
    { "aria-labelledby": "title" },
    element("a", { class: "back", href: "#trees" }, `‹ ${words.back}`),
    element(
      "header",
      { class: "tree-head" },
      numberBadge(stop.number, report.visit(stop.visitId).outcome, stop.urgency),
      element(
        "div",
        {},
        element("h1", { id: "title", tabindex: -1 }, stop.name),
        element("p", { class: "quiet" }, `${stop.place} · ${stop.treeId}`),
        element(
          "p",
          { class: "quiet" },
          `${stop.crew} · ${stop.due}${stop.overdue ? "" : ` · ${WORDS.urgency[stop.urgency]}`}`,
        ),
      ),
    ),
    cautions(page, stop),
    element(
      "dl",
      { class: "texts" },
      stop.texts.map(([label, text]) => [element("dt", {}, label), element("dd", {}, text)]),
    ),
    drawings(stop),
    cutGuide(page),
    element(
      "details",
      {},
      element("summary", {}, words.sizes),
      element(
        "dl",
        { class: "facts" },
        stop.facts.map(([label, value]) => [element("dt", {}, label), element("dd", {}, value)]),
      ),
    ),
    visitForm(page, stop, report),
    element(
      "p",
      { class: "row" },
      element("a", { class: "button quiet", href: `#map/${stop.number}` }, words.onMap),
      hazard,
    ),
    neighbors(page, stop),
    outcomeBar(page, stop, report),
  );
}

function cautions(page: PhonePage, stop: PhoneStop): HTMLElement | null {
  const own = stop.cautions.map((text) => element("li", {}, text));
  const shared = page.sharedCautions;
  if (own.length + shared.length === 0) return null;
  return element(
    "section",
    { class: "cautions", "aria-label": WORDS.tree.cautions },
    element("h2", {}, WORDS.tree.cautions),
    own.length === 0 ? null : element("ul", {}, own),
    shared.length === 0
      ? null
      : element(
          "details",
          { open: own.length === 0 },
          element("summary", {}, WORDS.tree.forAll(shared.length)),
          element(
            "ul",
            {},
            shared.map((text) => element("li", {}, text)),
          ),
        ),
  );
}

function drawings({ sections, inset, number }: PhoneStop): HTMLElement {
  const [first, ...more] = sections;
  const draw = (at: number) => drawingFigure(sections[at]!, `section-${number}-${at}`, WORDS.tree.section);
  return element(
    "div",
    { class: "drawings" },
    first === undefined ? null : draw(0),
    more.length === 0
      ? null
      : element(
          "details",
          {},
          element("summary", {}, WORDS.tree.moreSections(more.length)),
          more.map((_, at) => draw(at + 1)),
        ),
    element(
      "details",
      {},
      element("summary", {}, WORDS.tree.plan),
      element("div", { class: "inset" }, drawingFigure(inset, `inset-${number}`, WORDS.tree.plan)),
    ),
  );
}

/** The drawings that the texts name by letter, with what not to do and how tools are cleaned. */
function cutGuide({ cutGuide: { panels, lists, note } }: PhonePage): HTMLElement | null {
  if (panels.length + lists.length === 0) return null;
  return element(
    "details",
    { class: "guide" },
    element("summary", {}, WORDS.tree.cutGuide),
    panels.map(({ letter, title, drawing }) => [
      element("h2", {}, `${letter} ${title}`),
      drawingFigure(drawing, `cut-${letter.replace(/[^A-Za-z0-9]/g, "-")}`, title),
    ]),
    lists.map(({ title, lines }) => [
      element("h2", {}, title),
      element(
        "ul",
        {},
        lines.map((line) => element("li", {}, line)),
      ),
    ]),
    element("p", { class: "quiet" }, note),
  );
}

/** Links to the trees before and after in the order of work. */
function neighbors(page: PhonePage, { number }: PhoneStop): HTMLElement {
  const link = (to: number, words: string, className: string) => {
    const stop = page.stops[to - 1];
    if (stop === undefined) return element("span", {});
    return element("a", { class: `button quiet ${className}`, href: `#tree/${to}` }, `${words}: ${to} ${stop.name}`);
  };
  return element(
    "nav",
    { class: "neighbors", "aria-label": `${WORDS.tree.previous}, ${WORDS.tree.next}` },
    link(number - 1, WORDS.tree.previous, "previous"),
    link(number + 1, WORDS.tree.next, "next"),
  );
}
