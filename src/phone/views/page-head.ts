import type { PhonePage } from "../../core/packet/phone/phone-page.ts";
import { element } from "../element.ts";
import type { Report } from "../keep/report.ts";
import { warningsOf } from "./warnings.ts";

/** What stands above a part that is about the whole zone: its name, what it is of, and what is to be known of the packet. */
export const pageHead = (page: PhonePage, report: Report) => [
  element("h1", { id: "title", tabindex: -1 }, page.zoneName),
  element("p", { class: "quiet" }, page.subtitle),
  warningsOf(page, report),
];
