import type { Conflict } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Tree } from "../model/trees.ts";
import type { PrescriptionDraft } from "../prescription/prescription-draft.ts";
import type { Standard } from "../standard/standard.ts";
import type { SeasonWindows } from "./season-windows.ts";

/** One tree with all that its dates depend on. */
export interface TreeCase {
  readonly tree: Tree;
  readonly draft: PrescriptionDraft;
  readonly seasons: SeasonWindows;
  readonly isSouth: boolean;
  /** All its conflicts, whatever their certainty. */
  readonly all: readonly Conflict[];
  /** Whether every kind of conflict could be checked. */
  readonly isChecked: boolean;
  readonly standard: Standard;
  readonly options: PlanOptions;
}
