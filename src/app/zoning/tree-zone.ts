import { TreeZone } from "../../map/zoning/tree-zone.ts";

// The plugin's own element under a name of the page.
customElements.define("tree-zone", class extends TreeZone {});
