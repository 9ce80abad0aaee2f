import type { Page } from "playwright-core";

/** The views of the side sheet as a link names them, about a given tree and zone. */
export const sideViews = (treeId: string, zoneId: string) =>
  [
    ["list", ""],
    ["tree", `tree=${treeId}`],
    ["decide", `page=decide&of=${treeId}`],
    ["zones", "list=zones"],
    ["zone", `zone=${zoneId}`],
    ["acceptance", `page=acceptance&of=${zoneId}`],
    ["notices", `page=notices&of=${zoneId}`],
    ["findings", "list=findings"],
    ["legend", "list=legend"],
    ["budget", "page=budget"],
    ["inspect", "page=inspect"],
    ["decisions", "page=decisions"],
  ] as const;

/** Opens a view of the plan at hand as a link does, and waits until its parts are loaded and drawn. */
export async function openView(page: Page, query: string): Promise<void> {
  const wanted = new URLSearchParams(query);
  const name = ["tree", "zone", "page"].find((one) => wanted.has(one)) ?? wanted.get("list") ?? "trees";
  await page.evaluate((asked) => {
    const app = document.querySelector("boughline-app") as unknown as {
      hand: { opened: { plan: { planId: string } } };
    };
    const { planId } = app.hand.opened.plan;
    location.hash = `plan=${encodeURIComponent(planId)}${asked === "" ? "" : `&${asked}`}`;
  }, query);
  await page.waitForFunction((asked) => {
    const sheet = document.querySelector("side-sheet");
    const { view } = sheet as unknown as { view: { name: string } };
    return view.name === asked && sheet?.shadowRoot?.querySelector(":not(:defined)") === null;
  }, name);
}
