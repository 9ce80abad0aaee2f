import latin400 from "@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff?url";
import latin600 from "@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff?url";
import latinExt400 from "@fontsource/source-sans-3/files/source-sans-3-latin-ext-400-normal.woff?url";
import latinExt600 from "@fontsource/source-sans-3/files/source-sans-3-latin-ext-600-normal.woff?url";
import dejavu from "dejavu-fonts-ttf/ttf/DejaVuSans.ttf?url";
import dejavuBold from "dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf?url";
import type { FontSet } from "../formats/pdf/font-set.ts";

/** The fonts of the printed packet, from the app's own files: Source Sans 3, and DejaVu Sans for characters it lacks. Throws when one cannot be read. */
export async function loadFonts(): Promise<FontSet> {
  const read = async (url: string) => {
    const response = await fetch(url);
    if (!response.ok) throw new Error(`The font ${url} could not be read: ${response.status}`);
    return new Uint8Array(await response.arrayBuffer());
  };
  const [regular, semibold] = await Promise.all([
    Promise.all([latin400, latinExt400, dejavu].map(read)),
    Promise.all([latin600, latinExt600, dejavuBold].map(read)),
  ]);
  return { regular, semibold };
}
