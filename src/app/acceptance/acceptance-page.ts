import { html } from "lit";
import type { SidePage } from "../frame/side-page.ts";
import "./acceptance-sheet.ts";

/** The check of a zone's finished work. */
export const acceptancePage: SidePage = {
  name: "acceptance",
  title: "the check",
  from: "zone",
  label: ({ index }, zoneId) => {
    const zone = index.zoneById.get(zoneId ?? "");
    return zone?.state === "done" || zone?.state === "under-way" ? "Check finished work" : null;
  },
  render: (context, zoneId) =>
    html`<acceptance-sheet class="view" .context=${context} .zoneId=${zoneId ?? ""}></acceptance-sheet>`,
};
