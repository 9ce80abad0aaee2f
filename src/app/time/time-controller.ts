import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { Outlook, TreesOnDate } from "../../core/schedule/outlook.ts";
import type { World } from "../../core/schedule/tree-on-date.ts";
import type { IsoDate } from "../../core/units/calendar.ts";
import type { PlanIndex } from "../plan-index.ts";
import { datedIndex } from "./dated-index.ts";

/** The date that the page shows its trees for: the plan's own, or one of the ten years after it. */
export class TimeController implements ReactiveController {
  /** The date asked for; null for the plan's own. */
  date: IsoDate | null = null;
  world: World = "as-planned";
  /** Null until the forecast is reckoned, and where the plan's standard is not at hand. */
  outlook: Outlook | null = null;
  /** How the trees stand on the date that is shown; null for the plan's own. It follows `date` as soon as that is reckoned. */
  dated: TreesOnDate | null = null;
  private base: PlanIndex | null = null;
  /** A date that was asked for before the forecast was there. */
  private wish: IsoDate | null = null;
  private turn = 0;

  /** `show` is handed the trees of another date, or of the plan's own, when they are reckoned. */
  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly show: (index: PlanIndex) => void,
  ) {
    host.addController(this);
  }

  /** The trees as they stand on the plan's own date; null without a plan. */
  get plain(): PlanIndex | null {
    return this.base;
  }

  hostDisconnected() {
    this.turn += 1;
  }

  /**
   * Begins with another plan at its own date; the same plan in another state keeps the date, as soon as its forecast is there, and at once where
   * `keepsForecast` says that this is the one that was made.
   */
  follow(index: PlanIndex, keepsForecast = false) {
    if (keepsForecast && this.outlook !== null) {
      this.base = index;
      if (this.date === null) this.show(index);
      else void this.set(this.date);
      return;
    }
    const isSame = this.base?.opened.plan.planId === index.opened.plan.planId;
    this.turn += 1;
    this.wish = isSame ? (this.date ?? this.wish) : null;
    this.base = index;
    Object.assign(this, { date: null, dated: null, outlook: null });
    this.show(index);
  }

  /** Takes the plan's ten years, once they are reckoned. */
  offer(outlook: Outlook) {
    const { wish } = this;
    this.outlook = outlook;
    this.wish = null;
    this.host.requestUpdate();
    if (wish !== null) void this.set(wish);
  }

  /** Shows a date of the ten years, held to them; null or the as-of date is the plan's own. */
  async set(date: IsoDate | null, world: World = this.world): Promise<void> {
    const { outlook, base } = this;
    if (outlook === null || base === null) {
      this.wish = date;
      this.world = world;
      return;
    }
    this.turn += 1;
    const { turn } = this;
    this.world = world;
    this.date = date === null || date <= outlook.asOf ? null : date > outlook.endsOn ? outlook.endsOn : date;
    this.host.requestUpdate();
    const dated = this.date === null ? null : outlook.on(this.date, world);
    const index = dated === null ? base : await datedIndex(base, dated, () => turn === this.turn);
    if (index === null || turn !== this.turn) return;
    this.dated = dated;
    this.show(index);
    this.host.requestUpdate();
  }
}
