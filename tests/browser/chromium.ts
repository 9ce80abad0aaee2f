import { execFileSync } from "node:child_process";
import { type Browser, chromium } from "playwright-core";

/** Software WebGL2, the same pixels on every run, and no traffic of the browser's own. */
export const CHROMIUM_FLAGS = [
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--hide-scrollbars",
  "--use-gl=angle",
  "--use-angle=swiftshader",
  "--enable-unsafe-swiftshader",
  "--ignore-gpu-blocklist",
] as const;

/** A headless Chromium: the one `CHROMIUM` names, else the first on the path. Throws Error naming what was looked for. */
export async function launchChromium(): Promise<Browser> {
  return chromium.launch({ executablePath: chromiumPath(), args: [...CHROMIUM_FLAGS] });
}

const NAMES = ["chromium", "chromium-browser", "google-chrome"] as const;

/** Path of the browser the tests drive. */
export function chromiumPath(): string {
  const named = process.env.CHROMIUM;
  if (named !== undefined && named !== "") return named;
  for (const name of NAMES) {
    try {
      return execFileSync("/bin/sh", ["-c", `command -v ${name}`], { encoding: "utf8" }).trim();
    } catch {
      // Not on the path under this name; the next may be.
    }
  }
  throw new Error(`Expected a browser named ${NAMES.join(", ")} on the path, or CHROMIUM set to its path; found none`);
}
