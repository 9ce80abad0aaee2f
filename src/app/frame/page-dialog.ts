import type { TemplateResult } from "lit";
import type { PageContext } from "./side-page.ts";

/**
 * A part of the app that lies over the page until it is closed. It lives in a folder of its own, is listed in `page-dialogs.ts`, and is opened by
 * `context.openDialog(name)`. Its element shows itself as a modal `<dialog>`, so that the focus returns to where it was, and says `context.openDialog(null)` when it closes.
 */
export interface PageDialog {
  readonly name: string;
  /** The dialog; rendered only while it is open. Loads its own element as a side page does. */
  readonly render: (context: PageContext) => TemplateResult;
}
