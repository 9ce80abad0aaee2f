import type { DisplayUnits } from "../core/units/format-length.ts";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import type { BoughlineEvents } from "./events.ts";
import type { DatedTrees } from "./features/plan-look.ts";
import type { PlanInput } from "./open-plan-input.ts";
import type { Part, TreeFilter } from "./options.ts";
import type { ThemeName } from "./tokens.ts";
import type { TypedEvents } from "./typed-events.ts";

/** A plan on a map. Its methods may be called at any time, before the map has loaded and across changes of the host's style. */
export interface BoughlineHandle extends TypedEvents<BoughlineEvents> {
  readonly plan: OpenedPlan | null;
  /** Whether a plan is being opened. */
  readonly isOpening: boolean;
  readonly selectedTreeId: string | null;
  readonly selectedZoneId: string | null;
  /**
   * Opens a plan and shows it in place of the one there. Resolves with it, or with null when it could not be opened, which the `error`
   * event tells of, or when another plan or `remove` came before it.
   */
  load(from: PlanInput): Promise<OpenedPlan | null>;
  /** Shows another plan; keeps what is selected where the new plan has it too. */
  setPlan(opened: OpenedPlan | null): void;
  /**
   * Shows the trees as they stand on another date, or on the plan's own with null: marks, crowns grown to it, what is done by then. Another plan
   * begins at its own date.
   */
  setDate(dated: DatedTrees | null): void;
  /** Keeps marks only for trees that meet the filter; null shows all. */
  setFilter(filter: TreeFilter | null): void;
  /** Selects a tree, or none. An unknown id selects none. */
  select(treeId: string | null): void;
  /** Selects a zone and shows its order of work, or none. An unknown id selects none. */
  selectZone(zoneId: string | null): void;
  setTheme(theme: ThemeName): void;
  /** Shows these parts and hides the others, of those that were added. */
  setParts(parts: readonly Part[]): void;
  setUnits(units: DisplayUnits): void;
  /** Whether a click selects and the pointer marks what it is over; false while the host has another use for them, such as drawing. */
  setPicking(isPicking: boolean): void;
  /** Takes everything off the map again. The handle is of no use afterwards. */
  remove(): void;
}
