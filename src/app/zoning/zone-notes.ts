import { ZoneNotes } from "../../map/zoning/zone-notes.ts";

// The plugin's own element under a name of the page.
customElements.define("zone-notes", class extends ZoneNotes {});
