import { METERS_PER_INCH } from "./length.ts";
import { withThousands } from "./with-thousands.ts";

/** Units in which a reader sees lengths; files keep meters. */
export type DisplayUnits = "us" | "metric";

/**
 * A length for reading: `4.3 m` and from 20 m on whole meters, or in US units `13 ft 6 in`, `14 ft`, `8 in` and from 20 ft on whole feet.
 * Below that rounded to 0.1 m or to the inch; thousands have a comma, and a negative length keeps its sign. A length that is not finite is `unknown`.
 */
export function formatLength(lengthM: number, units: DisplayUnits): string {
  if (!Number.isFinite(lengthM)) return "unknown";
  if (units === "metric") {
    if (Math.abs(lengthM) < 20) return `${noMinusZero(lengthM.toFixed(1))} m`;
    return `${lengthM < 0 ? "-" : ""}${withThousands(Math.round(Math.abs(lengthM)))} m`;
  }
  const inches = Math.round(Math.abs(lengthM) / METERS_PER_INCH);
  const sign = lengthM < 0 && inches > 0 ? "-" : "";
  if (inches >= 20 * 12) return `${sign}${withThousands(Math.round(inches / 12))} ft`;
  const feet = Math.floor(inches / 12);
  const rest = inches - feet * 12;
  if (feet === 0) return `${sign}${rest} in`;
  return rest === 0 ? `${sign}${feet} ft` : `${sign}${feet} ft ${rest} in`;
}

/** A diameter for reading: `12 cm`, or in US units `5 in`; half inches below 3 in. */
export function formatDiameter(lengthM: number, units: DisplayUnits): string {
  if (!Number.isFinite(lengthM)) return "unknown";
  if (units === "metric") return `${Math.round(lengthM * 100)} cm`;
  const inches = lengthM / METERS_PER_INCH;
  return `${inches < 3 ? Math.round(inches * 2) / 2 : Math.round(inches)} in`;
}

/** Diameters below these would read as nothing: half a centimeter, a quarter of an inch. */
const SMALLEST_SAID_M = { metric: 0.005, us: METERS_PER_INCH / 4 };

/** Smallest and largest diameter for reading: `3–8 cm`; a single figure when both read the same, `up to 8 cm` from next to nothing. */
export function formatDiameters(range: readonly [number, number], units: DisplayUnits): string {
  if (range[1] < SMALLEST_SAID_M[units]) return units === "us" ? "under 0.5 in" : "under 1 cm";
  if (range[0] < SMALLEST_SAID_M[units]) return `up to ${formatDiameter(range[1], units)}`;
  const low = formatDiameter(range[0], units);
  const high = formatDiameter(range[1], units);
  return low === high ? high : `${low.slice(0, low.indexOf(" "))}–${high}`;
}

/** A share for reading: `14 %`, `under 1 %` for a trace, `0 %` for none. */
export function formatShare(share: number): string {
  if (!Number.isFinite(share)) return "unknown";
  const percent = Math.round(share * 100);
  return percent === 0 && share > 0 ? "under 1 %" : `${percent} %`;
}

/** What a visit takes, for reading: `14 % of the live crown`, `no live wood`. */
export const formatDose = (share: number): string =>
  share <= 0 ? "no live wood" : `${formatShare(share)} of the live crown`;

const noMinusZero = (text: string): string => (Number(text) === 0 ? text.replace("-", "") : text);
