import { html } from "lit";
import type { WorkController } from "../work-controller.ts";
import type { IntakeController } from "./intake-controller.ts";
import type { IntakeDraft } from "./intake-draft.ts";
import "./intake-sheet.ts";
import "./progress-dialog.ts";

/** What lies over the page while files are asked about, and while something takes its time. */
export function intakeDialogs(files: IntakeController, doing: WorkController, chooseFiles: () => void) {
  return html`
    <intake-sheet
      .draft=${doing.work === null ? files.draft : null}
      .report=${files.report}
      .doing=${files.doing}
      .problem=${files.problem}
      @draft-change=${(event: CustomEvent<IntakeDraft>) => files.change(event.detail)}
      @plan-wanted=${() => files.make()}
      @files-choose=${chooseFiles}
      @map-save=${() => files.saveMap()}
      @intake-close=${() => files.close()}
    ></intake-sheet>
    <progress-dialog
      .work=${doing.work}
      @work-cancel=${() => doing.cancel()}
      @work-close=${() => doing.cancel()}
    ></progress-dialog>
  `;
}
