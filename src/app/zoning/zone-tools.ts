import { ZoneTools } from "../../map/zoning/zone-tools.ts";

// The plugin's own element under a name of the page.
customElements.define("zone-tools", class extends ZoneTools {});
