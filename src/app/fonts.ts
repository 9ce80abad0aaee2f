import regular from "@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff?url";
import semibold from "@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff?url";
import regularExtended from "@fontsource/source-sans-3/files/source-sans-3-latin-ext-400-normal.woff?url";
import semiboldExtended from "@fontsource/source-sans-3/files/source-sans-3-latin-ext-600-normal.woff?url";
import fallback from "dejavu-fonts-ttf/ttf/DejaVuSans.ttf?url";
import semiboldFallback from "dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf?url";
import type { FontSet } from "../formats/pdf/font-set.ts";

/** The fonts of the printed packet, from the page's own folder: Source Sans 3, and DejaVu Sans for characters it lacks. */
export async function loadFonts(): Promise<FontSet> {
  const [regularFonts, semiboldFonts] = await Promise.all([
    Promise.all([regular, regularExtended, fallback].map(bytesOf)),
    Promise.all([semibold, semiboldExtended, semiboldFallback].map(bytesOf)),
  ]);
  return { regular: regularFonts, semibold: semiboldFonts };
}

async function bytesOf(address: string): Promise<Uint8Array> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`A font of the packet could not be opened (${response.status}).`);
  return new Uint8Array(await response.arrayBuffer());
}
