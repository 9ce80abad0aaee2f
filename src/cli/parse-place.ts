import type { Place } from "../core/model/plan.ts";
import { usageError } from "./exit-codes.ts";

/**
 * The place a text such as `US-WI, zone 5`, `CA-BC` or `zone 8` names: an ISO 3166 region and a USDA hardiness zone, each of which may be
 * missing. Throws CommandError for anything else, rather than guess.
 */
export function parsePlace(text: string): Place {
  let region: string | null = null;
  let hardinessZone: number | null = null;
  for (const part of text.split(",").map((one) => one.trim())) {
    if (part === "") continue;
    if (/^zone \d{1,2}[ab]?$/i.test(part)) {
      hardinessZone = Number.parseInt(part.slice(5), 10);
      if (hardinessZone < 1 || hardinessZone > 13)
        throw usageError(`--place: hardiness zones go from 1 to 13, got "${part}".`);
    } else if (/^[A-Z]{2}(-[A-Z0-9]{1,3})?$/.test(part)) region = part;
    else throw usageError(`--place takes a region such as US-WI and a hardiness zone such as "zone 5", got "${part}".`);
  }
  return { hardinessZone, region };
}
