import { ZoneList } from "../../map/zoning/zone-list.ts";

// The plugin's own element under a name of the page.
customElements.define("zone-list", class extends ZoneList {});
