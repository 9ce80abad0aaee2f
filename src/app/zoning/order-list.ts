import { OrderList } from "../../map/zoning/order-list.ts";

// The plugin's own element under a name of the page.
customElements.define("order-list", class extends OrderList {});
