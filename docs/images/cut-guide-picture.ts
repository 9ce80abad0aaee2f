import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Browser } from "playwright-core";
import { CUT_FIGURES, CUT_TITLES } from "../../src/core/crown/cuts/cut-figures.ts";
import { drawCut } from "../../src/core/crown/cuts/draw-cut.ts";
import { drawingToSvg, PRINT_TONES } from "../../src/core/crown/drawing-to-svg.ts";

const WIDTH_PX = 1080;
/** Diameter in meters of the limb whose three cuts are shown. */
const LIMB_M = 0.1;

/** All drawings of the cut guide on one sheet, as a PNG of Chromium in the fonts of the packets. */
export async function cutGuidePicture(browser: Browser): Promise<Buffer> {
  const figures = CUT_FIGURES.map((figure, at) => {
    const [letter, title] = CUT_TITLES[figure];
    const svg = drawingToSvg(drawCut(figure, "us", LIMB_M), { idPrefix: `cut-${at}`, tones: PRINT_TONES, title });
    return `<figure><figcaption><b>${letter}</b> ${title}</figcaption>${svg}</figure>`;
  });
  const page = await browser.newPage({ viewport: { width: WIDTH_PX, height: 800 } });
  await page.setContent(`<style>
    ${fontFace(400)} ${fontFace(600)}
    body { display: grid; grid-template-columns: 1fr 1fr; gap: 18px 36px; margin: 24px; background: #fff; font: 400 19px "Source Sans 3" }
    figure { margin: 0; padding-top: 6px; border-top: 2px solid #000 }
    figcaption { font-weight: 600 }
    figcaption b { margin-right: 8px; font-size: 24px }
    svg { display: block; width: 100%; height: auto; margin-top: 4px }
  </style>${figures.join("")}`);
  await page.evaluate(() => document.fonts.ready);
  const picture = await page.screenshot({ fullPage: true });
  await page.close();
  return picture;
}

function fontFace(weight: 400 | 600): string {
  const file = createRequire(import.meta.url).resolve(
    `@fontsource/source-sans-3/files/source-sans-3-latin-${weight}-normal.woff2`,
  );
  const data = readFileSync(file).toString("base64");
  return `@font-face { font-family: "Source Sans 3"; font-weight: ${weight}; src: url("data:font/woff2;base64,${data}") }`;
}
