import { css, html, LitElement, svg } from "lit";
import { customElement, property } from "lit/decorators.js";
import { addMonths, type IsoDate } from "../../core/units/calendar.ts";
import { formatDate } from "../../core/units/format-date.ts";
import type { Month } from "../months/month-bars.ts";
import { sharedStyles } from "../shared-styles.ts";

/** Months that the page keys walk. */
const YEAR = 12;

/**
 * A plumb line over the bars of the months that is dragged to the date to be shown: to the first of a month, or home to the plan's own date. Arrows walk by
 * months, the page keys by years; Home and Escape lead back. Fires `date-change` (detail: date, or null for the plan's own).
 */
@customElement("date-handle")
export class DateHandle extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        position: absolute;
        inset: 0;
        pointer-events: none;
      }
      .past {
        position: absolute;
        inset-block: 0 18px;
        background: color-mix(in srgb, var(--paper) 62%, transparent);
      }
      .line {
        position: absolute;
        top: -4px;
        bottom: 14px;
        width: 1.5px;
        margin-left: -0.75px;
        background: var(--ink);
      }
      .bob {
        position: absolute;
        bottom: -4px;
        display: grid;
        place-items: start center;
        width: 28px;
        height: 28px;
        margin-left: -14px;
        cursor: ew-resize;
        pointer-events: auto;
        touch-action: none;
      }
      .bob:focus-visible {
        outline-offset: -1px;
      }
      svg {
        display: block;
        margin-top: 4px;
      }
      path {
        fill: var(--ink);
        stroke: var(--paper);
        stroke-width: 1.5;
        paint-order: stroke;
      }
      :host([folded]) .past {
        bottom: 0;
      }
      :host([folded]) .line {
        bottom: 0;
      }
      :host([folded]) .bob {
        bottom: -6px;
        width: 40px;
        height: 40px;
        margin-left: -20px;
        place-items: end center;
      }
    `,
  ];

  /** The first and every further month that has a bar. */
  @property({ attribute: false }) months: readonly Month[] = [];
  @property({ attribute: false }) asOf: IsoDate | null = null;
  @property({ attribute: false }) date: IsoDate | null = null;
  /** What is taken of the work until then, in words. */
  @property() world = "";
  @property({ type: Number }) leftPx = 0;
  @property({ type: Number }) widthPx = 0;
  @property({ type: Boolean, reflect: true }) folded = false;
  private isHeld = false;

  /** Gives the keyboard to the handle. */
  override focus() {
    this.renderRoot.querySelector<HTMLElement>(".bob")?.focus();
  }

  protected override render() {
    const at = this.place;
    const x = this.xOf(this.date ?? this.asOf);
    return html`
      <div class="past" .style=${`left: ${this.leftPx}px; width: ${Math.max(0, x - this.leftPx)}px`}></div>
      <div class="line" .style=${`left: ${x}px`}></div>
      <div
        class="bob"
        role="slider"
        tabindex="0"
        title="Drag to show another date"
        aria-label="Date shown on map and list"
        aria-orientation="horizontal"
        aria-valuemin="0"
        aria-valuemax=${this.months.length - 1}
        aria-valuenow=${at}
        aria-valuetext=${this.words()}
        .style=${`left: ${x}px`}
        @keydown=${this.onKey}
        @pointerdown=${this.onDown}
        @pointermove=${this.onMove}
        @pointerup=${this.onUp}
        @pointercancel=${this.onUp}
      >
        ${svg`<svg width="13" height="19" viewBox="0 0 13 19" aria-hidden="true"><path d="M6.5 1 11.5 5.5 6.5 18 1.5 5.5z"></path></svg>`}
      </div>
    `;
  }

  private words(): string {
    if (this.date === null) return this.asOf === null ? "" : `${formatDate(this.asOf)}, as of the plan`;
    return `${formatDate(this.date)}, forecast, ${this.world}`;
  }

  /** Months from the plan's own, 0 to the last bar. */
  private get place(): number {
    return this.date === null ? 0 : Math.max(0, this.months.indexOf(this.date.slice(0, 7)));
  }

  private xOf(date: IsoDate | null): number {
    const step = (this.widthPx - this.leftPx) / Math.max(1, this.months.length);
    if (date === null) return this.leftPx;
    const days = (Number(date.slice(8, 10)) - 1) / 31;
    return this.leftPx + (Math.max(0, this.months.indexOf(date.slice(0, 7))) + days) * step;
  }

  private show(place: number) {
    const held = Math.min(this.months.length - 1, Math.max(0, place));
    const first = this.months[0];
    if (first === undefined) return;
    const date = held === 0 ? null : addMonths(`${first}-01` as IsoDate, held);
    if (date === this.date) return;
    this.dispatchEvent(new CustomEvent("date-change", { detail: date, bubbles: true, composed: true }));
  }

  private onDown(event: PointerEvent) {
    if (event.button !== 0) return;
    this.isHeld = true;
    (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
    event.stopPropagation();
  }

  private onMove(event: PointerEvent) {
    if (!this.isHeld) return;
    const share = (event.clientX - this.getBoundingClientRect().left - this.leftPx) / (this.widthPx - this.leftPx);
    this.show(Math.round(share * this.months.length));
  }

  private onUp() {
    this.isHeld = false;
  }

  private onKey(event: KeyboardEvent) {
    const by = {
      ArrowRight: 1,
      ArrowUp: 1,
      ArrowLeft: -1,
      ArrowDown: -1,
      PageUp: YEAR,
      PageDown: -YEAR,
      Home: -this.months.length,
      Escape: -this.months.length,
      End: this.months.length,
    }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    this.show(this.place + by);
  }
}
