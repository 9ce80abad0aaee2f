import type { PhonePage } from "../../core/packet/phone/phone-page.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { completionOf } from "../completion-of.ts";
import { button, element } from "../element.ts";
import { lastChange, type Report } from "../keep/report.ts";
import { WORDS } from "../words.ts";
import { todayHere } from "./warnings.ts";

/** What would be exported, what is missing, and the ways of handing it in: a file, the device's share sheet, or text to copy. */
export function exportPart(page: PhonePage, report: Report, appVersion: string): HTMLElement {
  const { report: words } = WORDS;
  const make = () =>
    completionOf(page, report.marks, { appVersion, exportedAt: new Date().toISOString().replace(/\.\d+Z$/, "Z") });
  const { completion, missing } = make();
  const count = (outcome: string) => completion.visits.filter((visit) => visit.outcome === outcome).length;
  const [done, partly, notDone] = [count("done"), count("partly"), count("not-done")];
  const said = element("p", { role: "status" }, exportState(report));
  const text = element("textarea", { id: "completion-text", rows: 8, readonly: true, "aria-label": words.textLabel });
  text.hidden = true;
  const exported = () => {
    // Not before the last change, even when the clock was set back since.
    const [, exportedAt] = [new Date().toISOString(), lastChange(report.marks)].sort();
    report.changeZone({ exportedAt: exportedAt! });
    said.textContent = exportState(report);
  };
  const fileOf = () =>
    new File([`${JSON.stringify(make().completion, null, 1)}\n`], completionFileName(page), {
      type: "application/json",
    });
  const save = button(words.save, () => {
    const address = URL.createObjectURL(fileOf());
    element("a", { href: address, download: completionFileName(page) }).click();
    // Some browsers fetch the file only after the click has returned.
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
    exported();
  });
  const share = button(
    words.share,
    async () => {
      try {
        await navigator.share({ files: [fileOf()] });
        exported();
      } catch (error) {
        if ((error as DOMException).name !== "AbortError") said.textContent = words.failed;
      }
    },
    { class: "quiet" },
  );
  const show = button(
    words.asText,
    () => {
      text.value = `${JSON.stringify(make().completion, null, 1)}\n`;
      text.hidden = false;
      text.focus();
      text.select();
    },
    { class: "quiet" },
  );
  const canShare = typeof navigator.canShare === "function" && navigator.canShare({ files: [fileOf()] });
  return element(
    "section",
    { class: "export", "aria-labelledby": "export" },
    element("h2", { id: "export" }, words.export),
    element("p", {}, words.summary(done, partly, notDone, page.stops.length - done - partly - notDone)),
    missing.length === 0
      ? null
      : element(
          "div",
          { class: "warning" },
          element("p", {}, words.missingTitle),
          element(
            "ul",
            {},
            missing.map(({ number, what }) =>
              element("li", {}, element("a", { href: `#tree/${number}` }, words.missing(number, what))),
            ),
          ),
        ),
    element("p", {}, save),
    element("p", { class: "row" }, canShare ? share : null, show),
    said,
    text,
    element("p", { class: "quiet" }, words.sendIt),
  );
}

function exportState({ marks }: Report): string {
  const { exportedAt } = marks.zone;
  if (exportedAt === "") return lastChange(marks) === "" ? WORDS.report.nothing : WORDS.report.never;
  const clock = new Date(exportedAt);
  const time = `${String(clock.getHours()).padStart(2, "0")}:${String(clock.getMinutes()).padStart(2, "0")}`;
  const when = `${WORDS.date(formatDate(todayHere(clock)))}, ${time}`;
  return lastChange(marks) > exportedAt ? WORDS.report.changed(when) : WORDS.report.exported(when);
}

/** Name of the exported file: zone, revision and day, in characters every system takes. */
export function completionFileName({ zoneId, revision }: Pick<PhonePage, "zoneId" | "revision">): string {
  const zone = zoneId.replace(/[^A-Za-z0-9-]+/g, "-").slice(0, 40);
  return `completion-${zone}-r${revision}-${todayHere()}.json`;
}
