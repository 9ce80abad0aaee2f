import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { IsoDate } from "../core/units/calendar.ts";
import { inPieces } from "./in-pieces.ts";
import type { IndexedTree, PlanIndex } from "./plan-index.ts";
import { type Sort, sortedTrees } from "./sheet/sorted-trees.ts";
import { isFiltering, NO_FILTER, passes, type TreeFilter } from "./tree-filter.ts";

/** A part of the ground in degrees. */
export interface Ground {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** Which trees the page shows and in what order; reckoned a few at a time, so that the page stays at hand over many. */
export class ListController implements ReactiveController {
  filter: TreeFilter = NO_FILTER;
  sort: Sort = "urgency";
  /** Whether list and months keep to what the map looks at. */
  isInView = false;
  /** The trees that pass the filter, in the plan's order. */
  shown: readonly IndexedTree[] = [];
  /** Those of them that the list has, in its order. */
  listed: readonly IndexedTree[] = [];
  private ground: Ground | null = null;
  private index: PlanIndex | null = null;
  private on: IsoDate | null = null;
  private turn = 0;

  /** `tellMonths` is handed the trees that pass all of the filter but its months. */
  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly tellMonths: (entries: readonly IndexedTree[], filter: TreeFilter, asOf: IsoDate) => void,
  ) {
    host.addController(this);
  }

  hostConnected() {}

  /** Lists the trees of another plan, or the same on another date. */
  follow(index: PlanIndex, on: IsoDate): Promise<void> {
    this.index = index;
    this.on = on;
    return this.reckon();
  }

  apply(filter: TreeFilter): Promise<void> {
    this.filter = filter;
    return this.reckon();
  }

  sortBy(sort: Sort): Promise<void> {
    this.sort = sort;
    return this.reckon();
  }

  keepInView(isInView: boolean): Promise<void> {
    this.isInView = isInView;
    return this.reckon();
  }

  /** Follows the map, where the list keeps to it. */
  look(ground: Ground): void {
    this.ground = ground;
    if (this.isInView) void this.reckon();
  }

  private async reckon(): Promise<void> {
    const { index, filter, ground, isInView, on } = this;
    if (index === null || on === null) return;
    this.turn += 1;
    const { turn } = this;
    const { asOf } = index.opened.plan.options;
    const others = { ...filter, months: null };
    const [shown, listed, ofMonths]: IndexedTree[][] = [[], [], []];
    const take = (entry: IndexedTree) => {
      if (!passes(entry, others, asOf, on)) return;
      const isSeen = !isInView || ground === null || isOn(ground, entry);
      if (isSeen) ofMonths!.push(entry);
      if (filter.months !== null && !passes(entry, filter, asOf, on)) return;
      shown!.push(entry);
      if (isSeen) listed!.push(entry);
    };
    const isWhole = await inPieces(
      index.trees.length,
      (at) => take(index.trees[at]!),
      () => turn === this.turn,
    );
    if (!isWhole) return;
    this.shown = isFiltering(filter) ? shown! : index.trees;
    this.listed = this.sort === "urgency" ? listed! : sortedTrees(listed!, this.sort);
    this.tellMonths(ofMonths!, filter, asOf);
    this.host.requestUpdate();
  }
}

const isOn = ({ west, south, east, north }: Ground, { tree }: IndexedTree): boolean =>
  tree.lonDeg >= west && tree.lonDeg <= east && tree.latDeg >= south && tree.latDeg <= north;
