import { html } from "lit";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { PlanIndex } from "../plan-index.ts";
import type { RecordController } from "./record-controller.ts";
import type { RecordChoice } from "./record-sheet.ts";
import "./record-sheet.ts";

/** The sheet that crews' reports are looked at in, while there are some. */
export const recordDialog = (
  record: RecordController,
  index: PlanIndex | null,
  units: DisplayUnits,
  chooseFiles: () => void,
) => html`<record-sheet
  .index=${index}
  .files=${record.files.length}
  .shown=${record.shown}
  .decisions=${record.decisions}
  .doing=${record.doing}
  .problem=${record.problem}
  .units=${units}
  @record-choose=${({ detail }: CustomEvent<RecordChoice>) => record.decide(detail.visitId, detail.reportId)}
  @record-wanted=${() => record.record()}
  @files-choose=${chooseFiles}
  @record-close=${() => record.close()}
></record-sheet>`;
