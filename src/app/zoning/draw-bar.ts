import { DrawBar } from "../../map/zoning/draw-bar.ts";

// The plugin's own element under a name of the page.
customElements.define("draw-bar", class extends DrawBar {});
