import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { ForecastVisit } from "../../core/schedule/forecast-visits.ts";
import { Outlook } from "../../core/schedule/outlook.ts";
import { resolveStandard } from "../../core/standard/resolve-standard.ts";
import type { IsoDate } from "../../core/units/calendar.ts";
import { readWaiting, type WaitingFigures } from "../../formats/plan/waiting-words.ts";
import type { PlanJobRequest } from "../../worker/plan-messages.ts";
import { type PlanJob, startPlanJob } from "../../worker/start-plan-job.ts";
import type { PlanInHand } from "../plan-in-hand.ts";
import type { IndexedTree } from "../plan-index.ts";
import type { TreeFilter } from "../tree-filter.ts";
import { forecastInPieces } from "./forecast-in-pieces.ts";
import { type ForecastMonth, forecastMonths } from "./forecast-months.ts";
import { type Month, type MonthBar, monthBars } from "./month-bars.ts";

/** The months ahead of the plan in hand: its own visits, and beside them what is forecast, which is reckoned after the plan is shown. */
export class MonthsController implements ReactiveController {
  bars: readonly MonthBar[] = [];
  /** Null until it is reckoned, and where the plan's standard is not at hand. */
  forecast: ReadonlyMap<Month, ForecastMonth> | null = null;
  /** Urgencies and crews that the plan has work of. */
  used: ReadonlySet<string> = new Set();
  /** The cost of waiting, from the plan's `waiting.json` or reckoned anew; null where it is not known. */
  waiting: WaitingFigures | null = null;
  /** How far the cost of waiting is reckoned, or why it was not; null when nothing is being reckoned. */
  reckoning: string | null = null;
  private job: PlanJob | null = null;
  private visits: readonly ForecastVisit[] | null = null;
  private hand: PlanInHand | null = null;
  private last: readonly [readonly IndexedTree[], TreeFilter, IsoDate] | null = null;

  /** `offer` is handed the plan's ten years, once they are reckoned. */
  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly offer: (outlook: Outlook) => void,
  ) {
    host.addController(this);
  }

  hostDisconnected() {
    this.hand = null;
    this.job?.cancel();
  }

  /** Takes the plan in hand and begins its forecast. */
  async follow(hand: PlanInHand): Promise<void> {
    this.hand = hand;
    this.job?.cancel();
    this.visits = null;
    const planned = hand.opened.plan.prescriptions.flatMap(({ visits }) => visits);
    this.used = new Set(planned.flatMap(({ urgency, crew }) => [urgency, crew]));
    Object.assign(this, { forecast: null, waiting: null, reckoning: null });
    const isWanted = () => this.hand === hand;
    const bytes = await hand.source.read("standard.json").catch(() => null);
    if (!isWanted() || bytes == null) return;
    const resolved = resolveStandard(JSON.parse(new TextDecoder().decode(bytes)));
    if ("faults" in resolved) return;
    const visits = await forecastInPieces(hand.opened.plan, resolved.standard, isWanted);
    if (visits === null || !isWanted()) return;
    this.visits = visits;
    this.offer(new Outlook(hand.opened.plan, resolved.standard, visits));
    if (this.last !== null) this.apply(...this.last);
    this.host.requestUpdate();
  }

  /** Opens the years, and reads the plan's cost of waiting only now: most plans have none, and a page should not ask in vain. */
  showYears(dialog: { show(): void } | null) {
    dialog?.show();
    void this.readWaiting();
  }

  private async readWaiting(): Promise<void> {
    const { hand } = this;
    if (hand === null || this.waiting !== null) return;
    const bytes = await hand.source.read("waiting.json").catch(() => null);
    if (bytes == null || this.hand !== hand) return;
    this.waiting = readWaiting(bytes);
    this.host.requestUpdate();
  }

  /** Reckons the cost of waiting in a worker, from what the plan in hand was made from. */
  async reckon(request: PlanJobRequest): Promise<void> {
    const { hand } = this;
    this.job?.cancel();
    const tell = (reckoning: string | null) => {
      if (this.hand !== hand) return;
      this.reckoning = reckoning;
      this.host.requestUpdate();
    };
    tell("Starting");
    this.job = startPlanJob({ ...request, withZones: false, withWaiting: true }, (_, doing) => tell(doing));
    try {
      const bytes = (await this.job.result).files.get("waiting.json");
      if (this.hand === hand && bytes !== undefined) this.waiting = readWaiting(bytes);
      tell(null);
    } catch (error) {
      tell(`It could not be reckoned. ${error instanceof Error ? error.message : String(error)}`);
    }
  }

  /** The bars show every month of the trees that the other sides of the filter leave, so that the months stay comparable. */
  apply(entries: readonly IndexedTree[], filter: TreeFilter, asOf: IsoDate) {
    this.last = [entries, filter, asOf];
    const isCrew = ({ crew }: { readonly crew: ForecastVisit["crew"] }) =>
      filter.crews.size === 0 || filter.crews.has(crew);
    const visits = entries.flatMap((entry) => entry.prescription.visits).filter(isCrew);
    const rows = new Set(entries.map(({ tree }) => tree.row));
    this.forecast =
      this.visits === null
        ? null
        : forecastMonths(this.visits.filter((visit) => rows.has(visit.treeRow) && isCrew(visit)));
    this.bars = monthBars(visits, asOf, this.forecast === null ? [] : [...this.forecast.keys()]);
  }
}
