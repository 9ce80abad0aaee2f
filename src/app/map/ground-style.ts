import type { StyleSpecification } from "maplibre-gl";
import { TOKENS } from "../../map/tokens.ts";
import type { PageTheme } from "../theme.ts";

/** The bare sheet of paper the plan is drawn on: no tiles, no glyphs, no network. */
export function groundStyle(theme: PageTheme): StyleSpecification {
  return {
    version: 8,
    sources: {},
    layers: [{ id: "ground", type: "background", paint: { "background-color": TOKENS.themes[theme].ground } }],
  };
}
