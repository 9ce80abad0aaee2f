import type { Finding } from "../../model/finding.ts";
import type { Layer } from "../../model/terms.ts";

/** A finding about what drivers see, of no file and no field of its own. */
export const sightFinding = (
  code: string,
  severity: Finding["severity"],
  layer: Layer,
  feature: string | null,
  value: string | null,
  words: { readonly reason: string; readonly whatToDo: string },
): Finding => ({ code, severity, layer, file: null, feature, field: null, value, ...words });
