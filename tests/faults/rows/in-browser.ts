import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { BrowserContext } from "playwright-core";
import { serveApp } from "../../browser/app-page.ts";
import { chromiumPath, launchChromium } from "../../browser/chromium.ts";

const INDEX = fileURLToPath(new URL("../../../dist/app/index.html", import.meta.url));

/** Why the built app cannot be driven here; null where it can. */
export function missingBrowser(): string | null {
  if (!existsSync(INDEX)) return 'the app is not built: "npm run build" first';
  try {
    chromiumPath();
    return null;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** Serves the built app on a loopback address while `act` runs; `profile` gives a browser profile of its own, without a service worker. */
export async function inBrowser<T>(
  act: (address: string, profile: () => Promise<BrowserContext>) => Promise<T>,
): Promise<T> {
  const { server, address } = await serveApp();
  const browser = await launchChromium();
  try {
    return await act(address, () => browser.newContext({ reducedMotion: "reduce", serviceWorkers: "block" }));
  } finally {
    await browser.close();
    server.close();
  }
}
