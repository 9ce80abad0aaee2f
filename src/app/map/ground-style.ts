import type { StyleSpecification } from "maplibre-gl";
import { TOKENS } from "../../map/tokens.ts";
import type { PageTheme } from "../theme.ts";

/** The bare sheet of paper the plan is drawn on: no tiles, no glyphs, no network. */
export function groundStyle(theme: PageTheme): StyleSpecification {
  return {
    version: 8,
    sources: {},
    // From the north-west, as drawings are lit; low in contrast, so that solids stay card and not plastic.
    light: { anchor: "map", position: [1.2, 320, 45], color: "#ffffff", intensity: 0.28 },
    layers: [{ id: "ground", type: "background", paint: { "background-color": TOKENS.themes[theme].ground } }],
  };
}
