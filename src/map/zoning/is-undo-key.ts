/** Whether a key asks to undo, or with Shift to redo; in a field or dialog the keys are the browser's own. */
export function isUndoKey(event: KeyboardEvent): boolean {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "z") return false;
  return !event.composedPath().some((part) => part instanceof HTMLElement && part.matches("input, textarea, dialog"));
}
