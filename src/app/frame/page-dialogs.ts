import { nothing } from "lit";
import type { PageDialog } from "./page-dialog.ts";
import type { PageContext } from "./side-page.ts";

/** The dialogs of other parts. A new one is an import and an entry here. */
const PAGE_DIALOGS: readonly PageDialog[] = [];

/** The dialog of a name; nothing while none is open. */
export function openDialog(name: string | null, context: PageContext | null) {
  const dialog = PAGE_DIALOGS.find((one) => one.name === name);
  return dialog === undefined || context === null ? nothing : dialog.render(context);
}
