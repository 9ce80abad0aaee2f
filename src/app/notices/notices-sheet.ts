import { css, html, LitElement, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { calendarText } from "../../core/calendar-file/calendar-text.ts";
import {
  NOTICE_WORDS,
  type Notice,
  type NoticeStop,
  noticeBy,
  noticeDay,
  zoneNotices,
} from "../../core/standard/needed-notices.ts";
import type { Standard } from "../../core/standard/standard.ts";
import { formatDate } from "../../core/units/format-date.ts";
import type { PageContext } from "../frame/side-page.ts";
import { planStandard } from "../plan-standard.ts";
import { saveFile } from "../save-file.ts";
import { sharedStyles } from "../shared-styles.ts";
import { capitalized } from "../words.ts";

/** What is to be done before a zone's day, counted back from it, and the plan's dates for a calendar. */
@customElement("notices-sheet")
export class NoticesSheet extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        padding: 14px 16px 24px;
        overflow: auto;
      }
      p {
        margin-top: 8px;
      }
      li {
        margin-top: 12px;
        padding-top: 10px;
        border-top: 1px solid var(--rule);
      }
      .late {
        padding-left: 9px;
        border-left: 4px solid var(--urgency-now);
      }
      .trees {
        display: flex;
        flex-wrap: wrap;
        gap: 2px 10px;
      }
      .row {
        margin-top: 16px;
      }
    `,
  ];

  @property({ attribute: false }) context: PageContext | null = null;
  @property() zoneId = "";
  @state() private standard: Standard | null = null;
  @state() private problem: string | null = null;

  protected override willUpdate(changed: PropertyValues) {
    if (changed.has("context") && this.context !== null && this.standard === null && this.problem === null) {
      planStandard(this.context.hand.source).then(
        (standard) => {
          this.standard = standard;
        },
        (error: unknown) => {
          this.problem = error instanceof Error ? error.message : String(error);
        },
      );
    }
  }

  protected override render() {
    const { context, standard, problem } = this;
    if (problem !== null) return html`<p role="alert">${problem}</p>`;
    const zone = context?.index.zoneById.get(this.zoneId);
    if (context === null || standard === null || zone === undefined) return nothing;
    const wanted = new Set(zone.visitIds);
    const stops = zone.treeIds.flatMap((treeId): NoticeStop[] => {
      const entry = context.index.treeById.get(treeId);
      const visit = entry?.prescription.visits.find(({ visitId }) => wanted.has(visitId));
      return entry === undefined || visit === undefined
        ? []
        : [{ tree: entry.tree, visit, conflicts: entry.conflicts }];
    });
    const notices = zoneNotices(zone.closure, stops, standard.notices);
    const day = noticeDay(zone);
    return html`
      <h2>Before ${zone.name}</h2>
      <p>
        ${
          zone.plannedOn == null
            ? `No day is planned yet: dates count back from ${formatDate(day)}, the last one in time. Set Planned on in the zone.`
            : `Planned for ${formatDate(day)}.`
        }
      </p>
      ${
        notices.length === 0
          ? html`<p>Nothing that the plan knows of. Local codes may ask for more.</p>`
          : html`<ol>
              ${notices.map((notice) => this.notice(notice, day, context))}
            </ol>`
      }
      <div class="row">
        <button type="button" class="button" @click=${() => this.save(context, standard)}>Save all dates as a calendar</button>
      </div>
      <p class="small">${standard.notices.source.title}.</p>
    `;
  }

  private notice({ kind, leadDays, treeIds }: Notice, day: Parameters<typeof noticeBy>[0], context: PageContext) {
    const by = noticeBy(day, leadDays);
    const isLate = by < context.index.opened.plan.options.asOf;
    return html`<li class=${isLate ? "late" : ""}>
      <b>By ${formatDate(by)}</b>, ${leadDays} days before
      <div>${capitalized(NOTICE_WORDS[kind])}.</div>
      ${isLate ? html`<div class="small">Before the plan’s own date: ask at once, or plan a later day.</div>` : nothing}
      <div class="trees small">
        ${treeIds.map(
          (treeId) =>
            html`<button type="button" class="word" @click=${() => context.openTree(treeId)}>${treeId}</button>`,
        )}
      </div>
    </li>`;
  }

  private save({ index }: PageContext, standard: Standard): void {
    saveFile("plan.ics", new TextEncoder().encode(calendarText(index.opened.plan, standard)), "text/calendar");
  }
}
