import type { Page } from "playwright-core";

/** Waits until the map has drawn everything it was told to and nothing moves. */
export async function atRest(page: Page): Promise<void> {
  for (let calm = 0; calm < 3; ) {
    const isCalm = await page.evaluate(() => {
      const { map } = document.querySelector("map-view") as unknown as {
        map: { loaded(): boolean; areTilesLoaded(): boolean; isMoving(): boolean };
      };
      return map.loaded() && map.areTilesLoaded() && !map.isMoving();
    });
    calm = isCalm ? calm + 1 : 0;
    await page.waitForTimeout(120);
  }
}
