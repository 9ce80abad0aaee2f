import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import type { PhoneShell } from "../../formats/phone/phone-html.ts";
import { NO_SCRIPT } from "../words.ts";
import { baseStyles, phoneStyles } from "./phone-styles.ts";

/** What every zone's phone page shares: one script made of `src/phone`, one style sheet with the font in it, and a few words. */
export async function phoneShell(): Promise<PhoneShell> {
  const result = await build({
    configFile: false,
    logLevel: "error",
    root: fileURLToPath(new URL("..", import.meta.url)),
    build: {
      write: false,
      // Browsers of the last five years or so: phones are kept long.
      target: ["chrome100", "safari15.4", "firefox100"],
      minify: true,
      modulePreload: false,
      rollupOptions: {
        input: fileURLToPath(new URL("../main.ts", import.meta.url)),
        output: { format: "iife", entryFileNames: "phone.js" },
      },
    },
  });
  const [{ output }] = (Array.isArray(result) ? result : [result]) as [{ output: { type: string; code?: string }[] }];
  const code = output.flatMap((part) => (part.type === "chunk" && part.code !== undefined ? [part.code] : []));
  if (code.length !== 1) throw new Error(`Expected one script, got ${code.length}`);
  const { version } = JSON.parse(readFileSync(new URL("../../../package.json", import.meta.url), "utf8")) as {
    version: string;
  };
  return {
    appVersion: version,
    noScript: NO_SCRIPT,
    base: baseStyles(),
    style: phoneStyles(),
    script: code[0]!,
  };
}

/** The shell as the text of its file. */
export const shellText = (shell: PhoneShell): string => `${JSON.stringify(shell, null, 2)}\n`;
