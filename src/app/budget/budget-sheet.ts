import { html, LitElement, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { type BoughtFigures, type BudgetFigures, budgetFigures } from "../../core/budget/budget-figures.ts";
import { BUDGET_COLUMNS, budgetRows } from "../../core/budget/budget-table.ts";
import type { BudgetUnit } from "../../core/budget/budget-unit.ts";
import type { DividedBy } from "../../core/budget/budget-units.ts";
import type { WorkChoice } from "../../core/budget/choose-work.ts";
import { type BudgetDesk, budgetDesk } from "../../core/budget/plan-budget.ts";
import { parseRates, type Rates, SHIPPED_RATES } from "../../core/budget/rates.ts";
import type { Standard } from "../../core/standard/standard.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { withThousands } from "../../core/units/with-thousands.ts";
import { writeCsv } from "../../formats/csv.ts";
import type { PageContext } from "../frame/side-page.ts";
import type { PlanIndex } from "../plan-index.ts";
import { planStandard } from "../plan-standard.ts";
import { saveFile } from "../save-file.ts";
import { sharedStyles } from "../shared-styles.ts";
import { type BudgetCurves, budgetCurves, budgetDrawing } from "./budget-curve.ts";
import { budgetStyles } from "./budget-styles.ts";

/** How many lines of a list are drawn at once; the table has all. */
const MOST_LINES = 60;

/** How far hours go: a slider, what they buy beside oldest-first, and the map with what is chosen. */
@customElement("budget-sheet")
export class BudgetSheet extends LitElement {
  static override styles = [sharedStyles, budgetStyles];

  @property({ attribute: false }) context: PageContext | null = null;
  @state() private hours = 0;
  @state() private by: DividedBy = "visits";
  @state() private rates: Rates = SHIPPED_RATES;
  @state() private problem: string | null = null;
  @state() private desk: BudgetDesk | null = null;
  private standard: Standard | null = null;
  private curves: BudgetCurves | null = null;
  private of: PlanIndex | null = null;

  override disconnectedCallback() {
    super.disconnectedCallback();
    // The map shows all trees again once the page is left, unless another filter stands.
    const list = this.context?.list;
    if (list?.filter.chosen != null) void list.apply({ ...list.filter, chosen: null });
  }

  protected override willUpdate(changed: PropertyValues) {
    if (changed.has("context") && this.context !== null && this.context.index !== this.of) {
      this.of = this.context.index;
      void this.open(this.context);
    }
  }

  private async open(context: PageContext): Promise<void> {
    try {
      this.standard = await planStandard(context.hand.source);
      this.reckon(true);
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
    }
  }

  private reckon(isNew: boolean): void {
    if (this.standard === null || this.context === null) return;
    const { plan } = this.context.index.opened;
    const desk = budgetDesk(plan, this.standard, { by: this.by, rates: this.rates, until: null });
    this.curves = budgetCurves(desk);
    if (isNew) this.hours = Math.round(this.curves.hours / 2);
    this.desk = desk;
  }

  protected override render() {
    const { context, desk, curves, problem } = this;
    if (problem !== null) return html`<p class="warn" role="alert">${problem}</p>`;
    if (context === null || desk === null || curves === null) return html`<p role="status">Adding up the work …</p>`;
    const choice = desk.choose({ hours: this.hours });
    const figures = budgetFigures(desk, choice);
    const most = Math.ceil(curves.hours);
    return html`
      <h2>Budget</h2>
      <p>Running deadlines first, then the work that removes the most risk per hour.</p>
      <div class="asked">
        <label for="hours">Crew-hours there are</label>
        <input
          id="hours"
          type="range"
          min="0"
          max=${most}
          .value=${String(this.hours)}
          aria-valuetext="${this.hours} of ${most} hours"
          @input=${this.onHours}
          @change=${() => this.follow()}
        />
        <input type="number" aria-label="Crew-hours" min="0" max=${most} .value=${String(this.hours)} @change=${this.onTyped} />
        <span>of ${most} h</span>
      </div>
      ${this.divided(context)}
      ${budgetDrawing(curves, Math.min(this.hours, curves.hours), curveWords(figures))}
      ${figureTable(figures, this.rates)}
      ${missed(choice, this.nameOf)}
      <div class="row">
        <button type="button" class="button main" aria-pressed=${this.isOnMap ? "true" : "false"} @click=${this.onMap}>
          ${this.isOnMap ? "Show all trees on the map" : "Show the chosen trees on the map"}
        </button>
        <button type="button" class="button" @click=${() => this.save(choice)}>Save table</button>
      </div>
      ${this.lines("Chosen, in this order", choice.chosen.units, false)}
      ${this.lines("Stays open, by due date", choice.left, true)}
      <details>
        <summary>What the figures rest on</summary>
        <p class="block">
          Hours, chips and cost are estimates. Rates: ${this.rates.source}. ${desk.riskWithoutVisit.toFixed(0)} points of risk
          are not in any visit: trees that are referred, to be inspected first, or watched.
        </p>
        <p class="block">
          Risk is counted in points by the weights of the plan's standard, a policy to order work by. It says of no tree that it
          is safe.
        </p>
        <p class="block">
          <label>Rates of your contract (JSON) <input type="file" accept=".json" @change=${this.onRates} /></label>
        </p>
      </details>
    `;
  }

  private divided(context: PageContext) {
    if (context.index.zoneById.size === 0) return nothing;
    const chip = (by: DividedBy, words: string) =>
      html`<button
        type="button"
        class="chip"
        aria-pressed=${this.by === by ? "true" : "false"}
        @click=${() => {
          this.by = by;
          this.reckon(false);
          this.follow();
        }}
      >
        ${words}
      </button>`;
    return html`<div class="row" role="group" aria-label="Chosen by">
      ${chip("visits", "By single visits")} ${chip("zones", "By whole work zones")}
    </div>`;
  }

  private lines(title: string, units: readonly BudgetUnit[], isLeft: boolean) {
    if (units.length === 0) return nothing;
    return html`<details ?open=${isLeft}>
      <summary>${title} (${units.length})</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">${this.by === "zones" ? "Zone or visit" : "Tree"}</th>
            <th scope="col">Due</th>
            <th scope="col">Hours</th>
            <th scope="col">Risk</th>
          </tr>
        </thead>
        <tbody>
          ${units.slice(0, MOST_LINES).map(
            (unit) =>
              html`<tr>
                <td>
                  <button type="button" class="word" @click=${() => this.openUnit(unit)}>${this.nameOf(unit.id)}</button>
                </td>
                <td>${formatDate(unit.due)}</td>
                <td>${unit.hours.toFixed(1)}</td>
                <td>${unit.risk.toFixed(1)}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      ${units.length > MOST_LINES ? html`<p class="small">and ${units.length - MOST_LINES} more: Save table has all.</p>` : nothing}
    </details>`;
  }

  private readonly nameOf = (id: string): string =>
    this.context?.index.zoneById.get(id)?.name ?? (id.includes("/v") ? id.slice(0, id.lastIndexOf("/v")) : id);

  private openUnit({ id, kind }: BudgetUnit): void {
    if (kind === "zone") this.context?.openZone(id);
    else this.context?.openTree(this.nameOf(id));
  }

  private get isOnMap(): boolean {
    return this.context?.list.filter.chosen != null;
  }

  private readonly onMap = () => {
    const list = this.context?.list;
    if (list === undefined) return;
    if (this.isOnMap) void list.apply({ ...list.filter, chosen: null }).then(() => this.requestUpdate());
    else this.filterMap();
  };

  /** Keeps the map with the slider, where it shows what is chosen. */
  private follow(): void {
    if (this.isOnMap) this.filterMap();
  }

  private filterMap(): void {
    const { context, desk } = this;
    if (context === null || desk === null) return;
    const { units } = desk.choose({ hours: this.hours }).chosen;
    const chosen = new Set(units.flatMap(({ visitIds }) => visitIds));
    const treeIds = context.index.opened.plan.prescriptions.flatMap(({ treeId, visits }) =>
      visits.some(({ visitId }) => chosen.has(visitId)) ? [treeId] : [],
    );
    const { list } = context;
    const filter = { ...list.filter, chosen: { words: `chosen for ${this.hours} hours`, treeIds: new Set(treeIds) } };
    void list.apply(filter).then(() => this.requestUpdate());
  }

  private save(choice: WorkChoice): void {
    if (this.context === null || this.desk === null) return;
    const { plan } = this.context.index.opened;
    const text = writeCsv(BUDGET_COLUMNS, budgetRows(plan, this.desk, choice));
    saveFile(`budget-${this.hours}-hours.csv`, new TextEncoder().encode(text), "text/csv");
  }

  private onHours(event: Event): void {
    this.hours = Number((event.target as HTMLInputElement).value);
  }

  private onTyped(event: Event): void {
    const value = Number((event.target as HTMLInputElement).value);
    if (Number.isFinite(value) && value >= 0) this.hours = value;
    this.follow();
  }

  private async onRates(event: Event): Promise<void> {
    const file = (event.target as HTMLInputElement).files?.[0];
    if (file === undefined) return;
    try {
      const parsed = parseRates(JSON.parse(await file.text()));
      if ("faults" in parsed) throw new Error(parsed.faults.join(" "));
      this.rates = parsed.rates;
      this.reckon(false);
    } catch (error) {
      this.context?.tell(`These rates cannot be used: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
}

function figureTable(figures: BudgetFigures, { currency }: Rates) {
  const line = (name: string, of: BoughtFigures) =>
    html`<tr>
      <td>${name}</td>
      <td>${of.visits}</td>
      <td>${of.hours.toFixed(0)}</td>
      <td>${withThousands(Math.round(of.cost))}</td>
      <td>${(of.risk_removed_share * 100).toFixed(0)} %</td>
    </tr>`;
  return html`<table>
    <thead>
      <tr>
        <th scope="col"><span class="unseen">Choice</span></th>
        <th scope="col">Visits</th>
        <th scope="col">Hours</th>
        <th scope="col">${currency}</th>
        <th scope="col">Risk ended</th>
      </tr>
    </thead>
    <tbody>
      ${line("Chosen", figures.chosen)} ${line("Oldest first", figures.oldest_first)} ${line("All work", figures.whole_plan)}
    </tbody>
  </table>`;
}

const curveWords = ({ chosen, oldest_first }: BudgetFigures): string =>
  `${chosen.hours.toFixed(0)} hours remove ${(chosen.risk_removed_share * 100).toFixed(0)} % of the risk as chosen and ${(oldest_first.risk_removed_share * 100).toFixed(0)} % oldest first.`;

function missed({ deadlinesMissed }: WorkChoice, nameOf: (id: string) => string) {
  if (deadlinesMissed.length === 0) return nothing;
  const hours = deadlinesMissed.reduce((sum, unit) => sum + unit.hours, 0);
  const named = deadlinesMissed.slice(0, 3).map(({ id, deadline }) => `${nameOf(id)} by ${formatDate(deadline!)}`);
  const rest = deadlinesMissed.length - named.length;
  return html`<p class="warn" role="status">
    Not enough for every running deadline: ${hours.toFixed(1)} more hours are needed, for ${named.join(", ")}${rest > 0 ? ` and ${rest} more` : ""}.
  </p>`;
}
