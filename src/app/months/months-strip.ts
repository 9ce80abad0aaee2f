import { html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { IsoDate } from "../../core/units/calendar.ts";
import type { ListController } from "../list-controller.ts";
import { sharedStyles } from "../shared-styles.ts";
import type { DateHandle } from "../time/date-handle.ts";
import type { TimeController } from "../time/time-controller.ts";
import { WORLD_WORDS } from "../time/world-words.ts";
import { NO_FILTER } from "../tree-filter.ts";
import { counted, readableHours, readableMonth } from "../words.ts";
import type { ForecastMonth } from "./forecast-months.ts";
import type { Month, MonthBar, MonthRange } from "./month-bars.ts";
import { leftPx, monthDrawing } from "./month-drawing.ts";
import { type ForecastPart, forecastParts, partHours, type Split, type SplitPart, splitParts } from "./month-split.ts";
import { stripStyles } from "./months-strip-styles.ts";
import { monthsTable } from "./months-table.ts";
import "../time/date-handle.ts";

/**
 * The months ahead as bars of work hours, split by urgency or by crew. A click takes a month, dragging takes several; with the keyboard the arrows walk, with
 * Shift they widen, Escape takes all. The key switches urgencies or crews, the plumb line moves the date. A table says the same to screen readers.
 */
@customElement("months-strip")
export class MonthsStrip extends LitElement {
  static override styles = [sharedStyles, stripStyles];

  @property({ attribute: false }) bars: readonly MonthBar[] = [];
  /** Work beyond the plan that is forecast, by month; drawn lighter, never counted by the filter. */
  @property({ attribute: false }) forecast: ReadonlyMap<Month, ForecastMonth> | null = null;
  /** Urgencies and crews that the plan has work of, to be switched on and off in the key. */
  @property({ attribute: false }) used: ReadonlySet<string> = new Set();
  /** Whose filter the months are a side of. */
  @property({ attribute: false, hasChanged: () => true }) list: ListController | null = null;
  @property({ attribute: false, hasChanged: () => true }) time: TimeController | null = null;
  @state() private widthPx = 800;
  @state() private heightPx = 88;
  @state() private pointed = -1;
  @state() private split: Split = "urgency";
  private anchor: Month | null = null;
  private readonly watch = new ResizeObserver(([entry]) => {
    if (entry === undefined) return;
    this.widthPx = Math.max(100, entry.contentRect.width);
    this.heightPx = Math.max(20, entry.contentRect.height);
  });

  protected override firstUpdated() {
    const plot = this.renderRoot.querySelector(".plot");
    if (plot !== null) this.watch.observe(plot);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.watch.disconnect();
  }

  protected override render() {
    return html`
      <section class="strip" aria-label="Work by month">
        <div class="line">
          <p>${this.sentence()}</p>
          ${
            this.range === null
              ? nothing
              : html`<button type="button" class="word" @click=${() => this.take(null)}>All months</button>`
          }
          <ul class="key" aria-label=${this.split === "crew" ? "Crews" : "Urgencies"}>
            ${splitParts(this.split)
              .filter(({ key }) => this.used.has(key))
              .map((part) => html`<li>${this.keyButton(part)}</li>`)}
            ${this.forecastLayers().length === 0 ? nothing : html`<li>Forecast:</li>`}
            ${this.forecastLayers().map(
              (part) => html`<li><i class=${part.key}></i>${part.word}${this.forecastShown(part)}</li>`,
            )}
          </ul>
          <button type="button" class="split word" @click=${this.onSplit}>
            ${this.split === "urgency" ? "By crew" : "By urgency"}
          </button>
          <button type="button" class="split word" @click=${this.onYears}>Ten years</button>
        </div>
        <div class="stage">
        <div
          class="plot"
          role="slider"
          tabindex="0"
          aria-label="Month the work is due; arrows walk, Shift with arrows widens, Escape takes all"
          aria-orientation="horizontal"
          aria-valuemin="0"
          aria-valuemax=${Math.max(0, this.bars.length - 1)}
          aria-valuenow=${this.range === null ? 0 : Math.max(0, this.placeOf(this.range.to))}
          aria-valuetext=${this.sentence()}
          @keydown=${this.onKey}
          @pointerdown=${this.onDown}
          @pointermove=${this.onMove}
          @pointerup=${this.onUp}
          @pointercancel=${this.onUp}
          @pointerleave=${() => {
            this.pointed = -1;
          }}
        >
          ${monthDrawing({
            bars: this.bars,
            forecast: this.isFolded ? null : this.forecast,
            split: this.split,
            range: this.range,
            pointed: this.anchor === null ? this.pointed : -1,
            widthPx: this.widthPx,
            heightPx: this.heightPx,
            isFolded: this.isFolded,
          })}
        </div>
        ${this.handle()}
        </div>
        ${monthsTable(this.bars, this.split)}
      </section>
    `;
  }

  /** Gives the keyboard to the months. */
  override focus() {
    this.renderRoot.querySelector<HTMLElement>(".plot")?.focus();
  }

  /** Gives the keyboard to the plumb line. */
  seekDate() {
    this.renderRoot.querySelector<DateHandle>("date-handle")?.focus();
  }

  /** What the strip shows just now, in words. */
  private sentence(): string {
    const pointed = this.bars[this.pointed];
    if (pointed !== undefined && this.anchor === null) {
      const month = `${readableMonth(pointed.month)}: ${readableHours(pointed.hours)}`;
      if (this.isFolded) return month;
      const more = this.forecast?.get(pointed.month);
      const forecast = more === undefined ? "" : `, forecast ${readableHours(more.hours)} more`;
      return `${month} in ${counted(pointed.visits, "visit")}${forecast}`;
    }
    const taken = this.bars.filter((bar) => this.isTaken(bar.month));
    const hours = readableHours(taken.reduce((sum, bar) => sum + bar.hours, 0));
    const visits = counted(
      taken.reduce((sum, bar) => sum + bar.visits, 0),
      "visit",
    );
    const first = taken[0];
    const last = taken.at(-1);
    if (first === undefined || last === undefined) return "No work in the months ahead";
    const span =
      first === last ? readableMonth(first.month) : `${readableMonth(first.month)} to ${readableMonth(last.month)}`;
    if (this.isFolded) return `${span}, ${hours}`;
    return `${span}: ${hours} in ${visits}`;
  }

  /** Beside its word, what a layer comes to in the month pointed at. */
  private hoursShown(key: SplitPart["key"]): string {
    const pointed = this.bars[this.pointed];
    return pointed === undefined || this.anchor !== null ? "" : ` ${readableHours(partHours(pointed, key))}`;
  }

  private forecastLayers(): ForecastPart[] {
    const months = [...(this.forecast?.values() ?? [])];
    return forecastParts(this.split).filter(({ hoursOf }) => months.some((month) => hoursOf(month) > 0));
  }

  private forecastShown({ hoursOf }: ForecastPart): string {
    const pointed = this.bars[this.pointed];
    if (pointed === undefined || this.anchor !== null) return "";
    const month = this.forecast?.get(pointed.month);
    return ` ${readableHours(month === undefined ? 0 : hoursOf(month))}`;
  }

  /** The plumb line of the date, once the forecast is there. */
  private handle() {
    const { time, bars } = this;
    if (time === null || time.outlook === null || bars.length === 0) return nothing;
    return html`<date-handle
      .months=${bars.map(({ month }) => month)}
      .asOf=${time.outlook.asOf}
      .date=${time.date}
      .world=${WORLD_WORDS[time.world].toLowerCase()}
      .leftPx=${leftPx(this.isFolded)}
      .widthPx=${this.widthPx}
      .folded=${this.isFolded}
      @date-change=${(event: CustomEvent<IsoDate | null>) => time.set(event.detail)}
    ></date-handle>`;
  }

  /** A layer's word, which switches it on and off in the filter; none switched on is all. */
  private keyButton({ key, word }: SplitPart) {
    const filter = this.list?.filter ?? NO_FILTER;
    const chosen: ReadonlySet<string> = this.split === "crew" ? filter.crews : filter.urgencies;
    const toggle = () => {
      const next = new Set(chosen);
      if (!next.delete(key)) next.add(key);
      void this.list?.apply({ ...filter, [this.split === "crew" ? "crews" : "urgencies"]: next });
    };
    return html`<button
      type="button"
      class=${chosen.size > 0 && !chosen.has(key) ? "off" : ""}
      aria-pressed=${chosen.has(key) ? "true" : "false"}
      title=${chosen.has(key) ? "Show the others too" : `Show only ${word}`}
      @click=${toggle}
    >
      <i class=${key}></i>${word}${this.hoursShown(key)}
    </button>`;
  }

  private get range(): MonthRange | null {
    return this.list?.filter.months ?? null;
  }

  private onYears() {
    this.dispatchEvent(new CustomEvent("years-wanted", { bubbles: true, composed: true }));
  }

  private get isFolded(): boolean {
    return this.heightPx < 60;
  }

  private isTaken(month: Month): boolean {
    return this.range === null || (month >= this.range.from && month <= this.range.to);
  }

  private placeOf(month: Month): number {
    return this.bars.findIndex((bar) => bar.month === month);
  }

  private placeAt(event: PointerEvent): number {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const left = leftPx(this.isFolded);
    const share = (event.clientX - box.left - left) / Math.max(1, box.width - left);
    return Math.min(this.bars.length - 1, Math.max(0, Math.floor(share * this.bars.length)));
  }

  private onDown(event: PointerEvent) {
    const bar = this.bars[this.placeAt(event)];
    if (bar === undefined || event.button !== 0) return;
    (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
    const isAgain = this.range?.from === bar.month && this.range.to === bar.month;
    this.anchor = isAgain ? null : bar.month;
    this.take(isAgain ? null : { from: bar.month, to: bar.month });
  }

  private onMove(event: PointerEvent) {
    this.pointed = this.placeAt(event);
    const month = this.bars[this.pointed]?.month;
    if (this.anchor === null || month === undefined) return;
    this.take(between(this.anchor, month));
  }

  private onUp() {
    this.anchor = null;
  }

  private onSplit() {
    this.split = this.split === "urgency" ? "crew" : "urgency";
  }

  private onKey(event: KeyboardEvent) {
    if (event.key === "Escape") {
      if (this.range === null) return;
      this.take(null);
    } else {
      const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
      const end = { Home: 0, End: this.bars.length - 1 }[event.key];
      const at = this.range === null ? (by === 1 ? -1 : this.bars.length) : this.placeOf(this.range.to);
      const to = this.bars[end ?? Math.min(this.bars.length - 1, Math.max(0, at + (by ?? Number.NaN)))]?.month;
      if (to === undefined) return;
      this.take(event.shiftKey && this.range !== null ? between(this.range.from, to) : { from: to, to });
    }
    event.preventDefault();
  }

  private take(range: MonthRange | null) {
    if (range?.from === this.range?.from && range?.to === this.range?.to) return;
    void this.list?.apply({ ...this.list.filter, months: range });
  }
}

const between = (one: Month, other: Month): MonthRange =>
  one <= other ? { from: one, to: other } : { from: other, to: one };
