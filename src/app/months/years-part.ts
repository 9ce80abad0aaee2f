import { html } from "lit";
import type { WorkController } from "../work-controller.ts";
import type { MonthsController } from "./months-controller.ts";
import "./years-dialog.ts";

/** The dialog of the ten years ahead; the cost of waiting can be worked out where the files of the plan are at hand. */
export const yearsPart = (months: MonthsController, doing: WorkController) => html`<years-dialog
  .bars=${months.bars}
  .forecast=${months.forecast}
  .waiting=${months.waiting}
  .reckoning=${months.reckoning}
  .canReckon=${doing.madeFrom !== null}
  @waiting-wanted=${() => doing.madeFrom !== null && months.reckon(doing.madeFrom)}
></years-dialog>`;
