import { html } from "lit";
import type { SidePage } from "../frame/side-page.ts";
import "./notices-sheet.ts";

/** Whom to tell before the work of a zone, and by when. */
export const noticesPage: SidePage = {
  name: "notices",
  title: "whom to tell",
  from: "zone",
  label: ({ index }, zoneId) => {
    const zone = index.zoneById.get(zoneId ?? "");
    return zone !== undefined && zone.state !== "done" && zone.visitIds.length > 0 ? "Whom to tell" : null;
  },
  render: (context, zoneId) =>
    html`<notices-sheet class="view" .context=${context} .zoneId=${zoneId ?? ""}></notices-sheet>`,
};
