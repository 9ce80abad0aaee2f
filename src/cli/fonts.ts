import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { FontSet } from "../formats/pdf/font-set.ts";

const resolve = createRequire(import.meta.url).resolve;

const SOURCE_SANS = "@fontsource/source-sans-3/files/source-sans-3";

/** The fonts of the printed packet, from the installed packages: Source Sans 3, and DejaVu Sans for characters it lacks. */
export async function loadFonts(): Promise<FontSet> {
  const read = async (path: string) => new Uint8Array(await readFile(resolve(path)));
  const weight = (number: number, fallback: string) =>
    Promise.all([
      read(`${SOURCE_SANS}-latin-${number}-normal.woff`),
      read(`${SOURCE_SANS}-latin-ext-${number}-normal.woff`),
      read(`dejavu-fonts-ttf/ttf/${fallback}.ttf`),
    ]);
  const [regular, semibold] = await Promise.all([weight(400, "DejaVuSans"), weight(600, "DejaVuSans-Bold")]);
  return { regular, semibold };
}
