/** Most names that are kept for one plan. */
const MOST_NAMES = 500;

const keyOf = (planId: string): string => `boughline:columns:${planId}`;

/** Columns beside the mapped ones that the reader chose to see for a plan, in this browser; none where the browser keeps nothing. */
export function chosenColumns(planId: string): readonly string[] {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(keyOf(planId)) ?? "[]");
    return Array.isArray(value) ? value.filter((name) => typeof name === "string").slice(0, MOST_NAMES) : [];
  } catch {
    return [];
  }
}

/** Keeps the reader's choice in this browser; where that is not allowed it lasts as long as the page. */
export function keepChosenColumns(planId: string, names: readonly string[]): void {
  try {
    if (names.length === 0) localStorage.removeItem(keyOf(planId));
    else localStorage.setItem(keyOf(planId), JSON.stringify(names.slice(0, MOST_NAMES)));
  } catch {
    // Storage is off or full; the choice stands until the page is closed.
  }
}
