import { CONFLICT_KINDS, type ConflictKind } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import type { Surroundings } from "../surroundings/surroundings.ts";

/** Kinds that no tree is checked for: a layer is missing, this version does not measure them, or the standard has no rule. */
export const kindsNotChecked = (surroundings: Surroundings, standard: Standard): ConflictKind[] =>
  CONFLICT_KINDS.filter(
    (kind) => surroundings.notChecked.includes(kind) || !standard.rules.some((rule) => rule.kind === kind),
  );
