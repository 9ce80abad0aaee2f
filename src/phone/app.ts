import type { PhonePage } from "../core/packet/phone/phone-page.ts";
import { formatDate } from "../core/units/format-date.ts";
import { element } from "./element.ts";
import type { Report } from "./keep/report.ts";
import { MapView } from "./map/map-view.ts";
import { reportSheet } from "./views/report-sheet.ts";
import { treeList } from "./views/tree-list.ts";
import { treeSheet } from "./views/tree-sheet.ts";
import { zoneSheet } from "./views/zone-sheet.ts";
import { WORDS } from "./words.ts";

const VIEWS = ["map", "trees", "zone", "report"] as const;

/** The whole page: one view at a time by the address after `#`, so that the phone's own back button works; beside the map where there is room. */
export function startApp(page: PhonePage, report: Report, appVersion: string): void {
  const map = new MapView(page, report);
  const sheet = element("div", { class: "sheet", id: "sheet" });
  const keptMark = element("span", { class: "kept", role: "status" });
  const nav = element(
    "nav",
    { class: "tabs", "aria-label": WORDS.nav.label },
    VIEWS.map((view) => element("a", { href: `#${view}`, "data-view": view }, WORDS.nav[view])),
  );
  document.body.append(
    element(
      "header",
      { class: "top" },
      element("span", {}, WORDS.revision(page.revision, WORDS.date(formatDate(page.asOf)))),
      keptMark,
    ),
    element("main", {}, map.root, sheet),
    nav,
  );

  const tellKept = () => {
    keptMark.textContent = WORDS.kept[report.kept];
    keptMark.dataset.kept = report.kept;
  };
  const place = () => {
    const [view = "", part = ""] = location.hash.slice(1).split("/");
    const number = /^\d{1,6}$/.test(part) ? Number(part) : null;
    const isKnown = view === "tree" ? page.stops[(number ?? 0) - 1] !== undefined : VIEWS.some((one) => one === view);
    return { view: isKnown ? view : "trees", number };
  };
  const draw = (): HTMLElement => {
    const { view, number } = place();
    const stop = number === null ? undefined : page.stops[number - 1];
    if (view === "tree" && stop !== undefined) {
      return treeSheet(page, stop, report, () => {
        const id = report.add("hazard", stop.treeId);
        goTo("#report", `added-${id}`);
      });
    }
    if (view === "zone") return zoneSheet(page, report);
    if (view === "report") {
      return reportSheet(page, report, appVersion, {
        add: (kind) => goTo("#report", `added-${report.add(kind)}`),
        pick: async (id) => {
          goTo("#map");
          const found = await map.pickPlace();
          if (found !== null) report.changeAdded(id, { place: found });
          goTo("#report", `added-${id}`);
        },
      });
    }
    return treeList(page, report);
  };
  /** Draws the view of the address; `anchor` is what to bring into sight and focus. */
  const show = (anchor: string | null) => {
    const { view, number } = place();
    document.body.dataset.view = view;
    sheet.replaceChildren(draw());
    for (const link of nav.querySelectorAll("a")) {
      const isHere = link.dataset.view === view || (view === "tree" && link.dataset.view === "trees");
      if (isHere) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    if (view === "map") {
      if (number !== null) map.showTree(number);
      map.draw();
    }
    const part = view === "map" ? map.root : sheet;
    const target = anchor === null ? part.querySelector<HTMLElement>("h1") : document.getElementById(anchor);
    document.title = `${sheet.querySelector("h1")?.textContent ?? page.zoneName} · ${page.zoneName}`;
    if (anchor === null) {
      window.scrollTo(0, 0);
      sheet.scrollTop = 0;
      target?.focus({ preventScroll: true });
    } else {
      target?.scrollIntoView({ block: "start" });
      (target?.querySelector<HTMLElement>("input, select, textarea") ?? target)?.focus({ preventScroll: true });
    }
  };
  let wanted: string | null = null;
  const goTo = (hash: string, anchor: string | null = null) => {
    if (location.hash === hash) show(anchor);
    else {
      wanted = anchor;
      location.hash = hash;
    }
  };
  addEventListener("hashchange", () => {
    show(wanted);
    wanted = null;
  });
  /** Draws the view again where it stands: scrolled as it was, the focus where it was. */
  const redraw = () => {
    const { scrollTop } = sheet;
    const { scrollY } = window;
    const focused = document.activeElement?.id ?? "";
    sheet.replaceChildren(draw());
    map.draw();
    window.scrollTo(0, scrollY);
    sheet.scrollTop = scrollTop;
    if (focused !== "") document.getElementById(focused)?.focus({ preventScroll: true });
  };
  sheet.addEventListener("change", ({ target }) => {
    if (!(target instanceof HTMLInputElement) || target.name !== "outcome") return;
    redraw();
    // The reason comes next; it may be below the fold.
    if (target.value !== "done") document.getElementById("after")?.scrollIntoView({ block: "start" });
  });
  sheet.addEventListener("click", ({ target }) => {
    if (target instanceof HTMLElement && target.dataset.redraw !== undefined) redraw();
  });
  report.addEventListener("kept", tellKept);
  report.addEventListener("change", tellKept);
  report.addEventListener("foreign", redraw);
  addEventListener("storage", () => void report.reread());
  addEventListener("beforeunload", (event) => {
    if (report.kept === "memory" && report.hasMarks) event.preventDefault();
  });
  tellKept();
  show(null);
}
