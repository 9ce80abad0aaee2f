import { html } from "lit";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { BoughlineApp } from "../boughline-app.ts";
import type { Ground } from "../list-controller.ts";
import type { MonthsStrip } from "../months/months-strip.ts";
import type { YearsDialog } from "../months/years-dialog.ts";
import { yearsPart } from "../months/years-part.ts";
import type { PacketWish } from "../packet-controller.ts";
import type { PlanIndex } from "../plan-index.ts";
import type { FindingPlace } from "../sheet/finding-place.ts";
import { type PageTheme, showTheme } from "../theme.ts";
import { isFiltering } from "../tree-filter.ts";
import { shapeFor } from "../zoning/shape-for.ts";
import { openDialog } from "./page-dialogs.ts";
import { skipLinks } from "./skip-links.ts";
import "../map/map-view.ts";
import "../months/months-strip.ts";
import "../sheet/side-sheet.ts";
import "../time/date-ribbon.ts";
import "../title/title-block.ts";
import "../zoning/draw-bar.ts";

/** The page with a plan on it: map, months and side sheet, and what becomes of what they fire. */
export function pageLayout(app: BoughlineApp, index: PlanIndex) {
  const { at, list, time } = app;
  const context = app.context(index);
  const shown = isFiltering(list.filter) ? list.shown : null;
  return html`<div
    class="page ${at.backTo === null ? "" : "detail"}"
    @notice=${(event: CustomEvent<string>) => app.tell(event.detail)}
  >
    ${skipLinks(app)}
    <main class="map">
      <h1 class="unseen">${app.hand?.name ?? ""}</h1>
      <title-block
        .index=${index}
        .name=${app.hand?.name ?? ""}
        .text=${list.filter.text}
        .units=${app.units}
        .theme=${app.theme}
        .desk=${app.desk.line}
        @search-tree=${(event: CustomEvent<string>) => app.openTree(event.detail)}
        @search-text=${(event: CustomEvent<string>) => app.searchFor(event.detail)}
        @units-change=${(event: CustomEvent<DisplayUnits>) => {
          app.units = event.detail;
        }}
        @theme-change=${(event: CustomEvent<PageTheme>) => {
          app.theme = event.detail;
          showTheme(event.detail);
        }}
        @files-choose=${app.chooseFiles}
      ></title-block>
      <map-view
        .opened=${index.opened}
        .filter=${app.filterOfMap(index, at.view, at.zoneId, shown)}
        .dated=${time.dated}
        .corner=${app.cornerOfMap}
        .treeId=${at.treeId}
        .zoneId=${at.zoneId}
        .withZones=${app.withZones || at.isAtZones}
        .theme=${app.theme}
        .units=${app.units}
        .basemap=${app.settings.basemap}
        @map-tree=${(event: CustomEvent<string | null>) => at.follow("tree", event.detail)}
        @map-zone=${(event: CustomEvent<string | null>) => at.follow("zone", event.detail)}
        .place=${app.place}
        @map-look=${(event: CustomEvent<Ground>) => {
          list.look(event.detail);
          app.desk.link.follow();
        }}
        .drawing=${shapeFor(app.zones.drawing)}
        @map-problem=${(event: CustomEvent<string>) => app.tell(event.detail)}
      ></map-view>
      <draw-bar .drawing=${app.zones.drawing}></draw-bar>
      <date-ribbon
        .time=${time}
        .index=${index}
        @date-sought=${() => app.querySelector<MonthsStrip>("months-strip")?.seekDate()}
      ></date-ribbon>
    </main>
    <months-strip
      .bars=${app.months.bars}
      .forecast=${app.months.forecast}
      @years-wanted=${() => app.months.showYears(app.querySelector<YearsDialog>("years-dialog"))}
      .used=${app.months.used}
      .list=${list}
      .time=${time}
    ></months-strip>
    ${yearsPart(app.months, app.doing)}
    <side-sheet
      role="complementary"
      aria-label="Side sheet"
      .index=${index}
      .view=${at.view}
      .backTo=${at.backTo}
      .list=${list}
      .dated=${time.dated}
      .lastTreeId=${at.lastTreeId}
      .units=${app.units}
      .theme=${app.theme}
      .withZones=${app.withZones}
      .packing=${app.packet.packing}
      .zoning=${app.zones}
      .canEdit=${app.desk.keep.canEdit}
      .context=${context}
      @view-open=${(event: CustomEvent<"trees">) => at.openList(event.detail)}
      @view-back=${() => at.back()}
      @tree-open=${(event: CustomEvent<string>) => app.openTree(event.detail)}
      @zone-open=${(event: CustomEvent<string>) => app.openZone(event.detail)}
      @trees-show=${() => app.mapView?.showTrees(list.shown.map((entry) => entry.tree))}
      @zones-draw=${(event: CustomEvent<boolean>) => {
        app.withZones = event.detail;
      }}
      @finding-open=${(event: CustomEvent<FindingPlace>) => app.openPlace(event.detail)}
      @packet-wanted=${(event: CustomEvent<PacketWish>) => app.packet.download(app.hand, event.detail)}
    ></side-sheet>
    ${openDialog(at.dialog, context)}
  </div>`;
}
