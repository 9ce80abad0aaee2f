import { REMEDIES, URGENCIES, ZONE_STATES, type ZoneState } from "../../core/model/terms.ts";
import { type MarkPath, markPaths } from "../symbols/mark-paths.ts";
import { markShape } from "../symbols/mark-shape.ts";
import { MARK_BOX_PX } from "../symbols/paint-mark.ts";
import { type Theme, TOKENS, type TonedUrgency } from "../tokens.ts";
import { patternFile } from "./sld-places.ts";
import { certaintiesOf, markFile } from "./sld-trees.ts";

/** The pictures that the SLDs name, as SVG files by name. */
export function symbolFiles(theme: Theme): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const remedy of REMEDIES)
    for (const urgency of URGENCIES.filter((one): one is TonedUrgency => one !== "clear"))
      for (const certainty of certaintiesOf(remedy)) {
        const colors = { tone: theme.urgency[urgency], ink: theme.ink, ground: theme.ground };
        const paths = markPaths(markShape(remedy), colors, certainty).map(pathElement);
        files.set(markFile(remedy, urgency, certainty), svgFile(-MARK_BOX_PX / 2, MARK_BOX_PX, paths));
      }
  for (const state of ZONE_STATES.filter((one) => one !== "done"))
    files.set(patternFile(state), svgFile(0, TOKENS.zonePattern.tilePx, [patternElement(state, theme.zone)]));
  files.set("zone-tab.svg", svgFile(0, 12, [`<path d="M0 0H12L0 12Z" fill="${theme.zone}"/>`]));
  return files;
}

const svgFile = (fromPx: number, sidePx: number, elements: readonly string[]): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${sidePx}" height="${sidePx}" viewBox="${fromPx} ${fromPx} ${sidePx} ${sidePx}">\n` +
  `${elements.map((one) => `  ${one}\n`).join("")}</svg>\n`;

function pathElement({ d, fill, stroke, strokeWidthPx, strokeOpacity, dash, scale }: MarkPath): string {
  const hasLine = stroke !== "none" && strokeWidthPx > 0;
  const rounded = (value: number): number => Number(value.toFixed(4));
  const line = hasLine
    ? ` stroke="${stroke}" stroke-width="${rounded(strokeWidthPx)}" stroke-linejoin="round"` +
      (strokeOpacity === 1 ? "" : ` stroke-opacity="${rounded(strokeOpacity)}"`) +
      (dash === "none" ? "" : ` stroke-dasharray="${dash.split(" ").map(Number).map(rounded).join(" ")}"`)
    : "";
  const shrink = scale === 1 ? "" : ` transform="scale(${rounded(scale)})"`;
  return `<path d="${d}" fill="${fill}"${line}${shrink}/>`;
}

/** One tile of a state's pattern whose opposite edges meet; the lines reach past the tile so that their ends do not show. */
function patternElement(state: Exclude<ZoneState, "done">, ink: string): string {
  const { tilePx, linePx, dotPx, opacity } = TOKENS.zonePattern;
  if (state === "draft")
    return `<circle cx="${tilePx / 2}" cy="${tilePx / 2}" r="${dotPx}" fill="${ink}" fill-opacity="${opacity}"/>`;
  const rising = `M-1 1L1 -1M0 ${tilePx}L${tilePx} 0M${tilePx - 1} ${tilePx + 1}L${tilePx + 1} ${tilePx - 1}`;
  const falling = `M-1 ${tilePx - 1}L1 ${tilePx + 1}M0 0L${tilePx} ${tilePx}M${tilePx - 1} -1L${tilePx + 1} 1`;
  const d = state === "issued" ? rising : rising + falling;
  return `<path d="${d}" fill="none" stroke="${ink}" stroke-width="${linePx}" stroke-opacity="${opacity}"/>`;
}
