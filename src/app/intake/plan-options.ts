import type { PlanOptions } from "../../core/model/plan.ts";
import { parseIsoDate } from "../../core/units/calendar.ts";

/** What stands in the form's fields. */
export interface FormTexts {
  readonly asOf: string;
  readonly units: string;
  readonly drive: string;
  readonly hardinessZone: string;
  readonly region: string;
}

/** The options a filled form says, or the sentence that says what is wrong with it. */
export function planOptions(form: FormTexts): PlanOptions | string {
  const text = (name: keyof FormTexts) => form[name].trim();
  const asOf = parseIsoDate(text("asOf"));
  if (asOf === null) return "“As of” takes a date, for example 2 Nov 2026.";
  const zoneText = text("hardinessZone");
  const hardinessZone = zoneText === "" ? null : Number(zoneText);
  if (hardinessZone !== null && !(Number.isInteger(hardinessZone) && hardinessZone >= 1 && hardinessZone <= 13)) {
    return "The hardiness zone is a whole number from 1 to 13.";
  }
  const region = text("region").toUpperCase();
  if (region !== "" && !/^[A-Z]{2}(-[A-Z0-9]{1,3})?$/.test(region)) {
    return "The region is a code such as US or US-WI.";
  }
  return {
    asOf,
    units: text("units") === "metric" ? "metric" : "us",
    drive: text("drive") === "left" ? "left" : "right",
    place: { hardinessZone, region: region === "" ? null : region },
  };
}
