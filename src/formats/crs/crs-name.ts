/** Longest definition read: WKT 2 of a compound system with its area stays below 10,000 characters. Our policy. */
export const MAX_DEFINITION = 20_000;

/** Whether a name is WGS 84 in longitude and latitude: `OGC:CRS84` in any of its spellings, or `WGS84`. */
export function isCrs84(text: string): boolean {
  const upper = text.toUpperCase();
  return upper.endsWith("CRS84") || upper.endsWith("CRS84H") || upper === "WGS84";
}

/**
 * The number at the end of a name that speaks of EPSG or ESRI, such as `EPSG:26910`, `URN:OGC:DEF:CRS:EPSG::26910` or a bare `26910`; null
 * without one.
 */
export function codeOf(text: string): number | null {
  const upper = text.trim().toUpperCase();
  let start = upper.length;
  while (start > 0 && upper.charCodeAt(start - 1) >= 48 && upper.charCodeAt(start - 1) <= 57) start -= 1;
  const digits = upper.slice(start);
  if (digits.length === 0 || digits.length > 7) return null;
  return start === 0 || upper.includes("EPSG") || upper.includes("ESRI") ? Number(digits) : null;
}

/** Refusal of a name or definition, with what to give instead. */
export const unknownSystem = (text: string, why = "is not known"): RangeError =>
  new RangeError(
    `The coordinate system "${text.trim().slice(0, 80)}" ${why}. Give its EPSG code (EPSG:n), its .prj text or its proj4 text ` +
      '("+proj=lcc ..."), or save the file in longitude and latitude.',
  );
