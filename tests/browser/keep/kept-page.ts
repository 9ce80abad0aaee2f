import type { BrowserContext, Page } from "playwright-core";
import { zip } from "../../../src/formats/zip.ts";
import { smallPlanFiles } from "../../app/small-plan.ts";
import { drop } from "../app-page.ts";

/** Trees of the plan that is kept in these tests. */
export const COUNT = 12;
/** For what a page does after a click, on a machine busy with other things. */
export const PATIENT = { timeout: 60_000 };

export const zipOf = (files: ReadonlyMap<string, Uint8Array>): Uint8Array =>
  zip([...files].map(([name, bytes]) => ({ name, bytes })));

const PLAN = zipOf(smallPlanFiles(COUNT));

/** What these tests look at and do in the page, past its buttons. */
export interface KeptApp extends Element {
  readonly hand: {
    readonly opened: {
      readonly plan: {
        readonly planId: string;
        readonly revision: number;
        readonly zones: readonly { readonly name: string }[];
      };
    };
  } | null;
  readonly desk: {
    editZones(zones: readonly object[], label: string): void;
    readonly keep: {
      readonly canEdit: boolean;
      readonly state: { readonly is: string; readonly edits?: number };
      readonly edits: readonly { readonly id: string; readonly payload: { readonly label: string } }[];
    };
  };
}

/** A page of a browser profile, opened at the start; `before` runs ahead of the page's own scripts, and what the page complains of is added to `complaints`. */
export async function keptPage(
  context: BrowserContext,
  address: string,
  complaints: string[],
  before?: () => void,
): Promise<Page> {
  const page = await context.newPage();
  page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  if (before !== undefined) await page.addInitScript(before);
  await page.goto(address);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  return page;
}

/**
 * Leaves the map out of a page. Drawing it without a graphics card takes most of the time of a run, and it has no part in keeping work; the tests of the map
 * and of the page as a whole have it.
 */
export function withoutMap(): void {
  const { getContext } = HTMLCanvasElement.prototype;
  Object.assign(HTMLCanvasElement.prototype, {
    getContext(this: HTMLCanvasElement, kind: string, ...more: unknown[]) {
      return /webgl/.test(kind) ? null : Reflect.apply(getContext, this, [kind, ...more]);
    },
  });
}

/** Opens a plan from its zip, and waits until it may be changed. */
export async function openZip(page: Page, bytes: Uint8Array = PLAN): Promise<void> {
  await drop(page, [["plan.zip", bytes]]);
  await page.waitForFunction(
    () => (document.querySelector("boughline-app") as KeptApp).desk.keep.canEdit,
    undefined,
    PATIENT,
  );
}

/** Renames the plan's first zone, as any edit of zones by hand does it; `padding` makes the edit that many bytes larger. The name is its label too. */
export const rename = (page: Page, name: string, padding = 0): Promise<void> => renameAll(page, [name], padding);

/** Renames the plan's first zone to each name, one edit after another without a pause. */
export const renameAll = (page: Page, names: readonly string[], padding = 0): Promise<void> =>
  page.evaluate(
    ([wanted, bytes]) => {
      const app = document.querySelector("boughline-app") as KeptApp;
      // Random letters, since the browser packs what it keeps.
      const letters = Array.from({ length: bytes / 3 }, () => String.fromCharCode(0x4e00 + Math.random() * 20_000));
      const hazards = bytes === 0 ? [] : [letters.join("")];
      for (const to of wanted) {
        const zones = app.hand!.opened.plan.zones.map((zone, at) => (at === 0 ? { ...zone, name: to, hazards } : zone));
        app.desk.editZones(zones, to);
      }
    },
    [names, padding] as const,
  );

export const zoneName = (page: Page): Promise<string | undefined> =>
  page.evaluate(() => (document.querySelector("boughline-app") as KeptApp).hand?.opened.plan.zones[0]?.name);

/** Labels of the edits the page has, in order. */
export const editLabels = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    (document.querySelector("boughline-app") as KeptApp).desk.keep.edits.map(({ payload }) => payload.label),
  );

/** Waits until the page says that so many edits are saved. */
export const saved = (page: Page, edits: number): Promise<void> =>
  page
    .locator("keep-line")
    .getByText(new RegExp(`Saved in this browser with ${edits} edits?,`))
    .waitFor(PATIENT);

/** Goes on with the one kept plan, and waits until its edits are made and it may be changed. */
export async function goOnKept(page: Page): Promise<void> {
  await page.getByRole("button", { name: /^Go on with/ }).click(PATIENT);
  await page.waitForFunction(
    () => (document.querySelector("boughline-app") as KeptApp).desk.keep.state.is === "kept",
    undefined,
    PATIENT,
  );
}
