import type { Page } from "playwright-core";

/** Where the keyboard stands. */
export interface Stop {
  /** The accessible name as far as an attribute or the text gives it; empty on the page's body. */
  readonly name: string;
  /** Whether an outline shows it, on the element or on the line that is active in it. */
  readonly isShown: boolean;
  /** Whether it lies in the window. */
  readonly isInSight: boolean;
}

/** The element that has the focus, components within components seen through. */
export const stop = (page: Page): Promise<Stop> =>
  page.evaluate(() => {
    let active = document.activeElement;
    while (active?.shadowRoot?.activeElement != null) active = active.shadowRoot.activeElement;
    if (active === null || active === document.body) return { name: "", isShown: true, isInSight: true };
    const labels = (active as HTMLInputElement).labels;
    const name = active.getAttribute("aria-label") ?? labels?.[0]?.textContent ?? active.textContent ?? active.tagName;
    const shows = (element: Element) => {
      const { outlineStyle, outlineWidth } = getComputedStyle(element);
      return outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2;
    };
    const line = active.querySelector("[data-active]");
    const box = (line ?? active).getBoundingClientRect();
    const isInSight =
      box.width > 0 && box.bottom > 0 && box.right > 0 && box.top < innerHeight && box.left < innerWidth;
    return {
      name: name.replace(/\s+/g, " ").trim() || active.tagName.toLowerCase(),
      isShown: shows(active) || (line !== null && shows(line)),
      isInSight,
    };
  });

/** Presses Tab, or Shift+Tab, until the element with that name has the focus. Throws Error naming the stops after three hundred. */
export async function tabTo(page: Page, name: string | RegExp, key: "Tab" | "Shift+Tab" = "Tab"): Promise<void> {
  const passed: string[] = [];
  for (let presses = 0; presses < 300; presses += 1) {
    await page.keyboard.press(key);
    const { name: at } = await stop(page);
    if (typeof name === "string" ? at.startsWith(name) : name.test(at)) return;
    passed.push(at.slice(0, 40));
  }
  throw new Error(`Expected Tab to reach ${name}; it passed ${[...new Set(passed)].join(" | ")}`);
}
