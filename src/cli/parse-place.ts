import { REGIONS as CLIMATES } from "../core/inventory/allometry/equation-label.ts";
import type { Place } from "../core/model/plan.ts";
import { usageError } from "./exit-codes.ts";

/**
 * The place a text such as `US-WI, zone 5`, `CA-BC`, `zone 8` or `US-CA, climate SoCalC` names: an ISO 3166 region, a USDA hardiness zone and
 * the region of the allometry whose climate is likest, each of which may be missing. Throws CommandError for anything else, rather than guess.
 */
export function parsePlace(text: string): Place {
  let region: string | null = null;
  let hardinessZone: number | null = null;
  let climate: string | null = null;
  for (const part of text.split(",").map((one) => one.trim())) {
    if (part === "") continue;
    if (/^zone \d{1,2}[ab]?$/i.test(part)) {
      hardinessZone = Number.parseInt(part.slice(5), 10);
      if (hardinessZone < 1 || hardinessZone > 13)
        throw usageError(`--place: hardiness zones go from 1 to 13, got "${part}".`);
    } else if (/^[A-Z]{2}(-[A-Z0-9]{1,3})?$/.test(part)) region = part;
    else if (/^climate /i.test(part)) {
      const wanted = part.slice(8).trim();
      climate = CLIMATES.find((code) => code.toLowerCase() === wanted.toLowerCase()) ?? null;
      if (climate === null) {
        throw usageError(`--place: a climate is one of ${CLIMATES.join(", ")}; got "${wanted.slice(0, 60)}".`);
      }
    } else {
      throw usageError(
        `--place takes a region such as US-WI, a hardiness zone such as "zone 5" and a climate such as "climate PacfNW", got "${part}".`,
      );
    }
  }
  return { hardinessZone, region, ...(climate === null ? {} : { climate }) };
}
