import type { ClearanceRule, Standard } from "./standard.ts";

/**
 * The rule that holds for a conductor by its line-to-line voltage; null where no rule's class holds it. Where the voltage is unknown the
 * standard's assumed voltage is taken, else the first conductor rule. Of several that hold, the one with the largest minimum.
 */
export function conductorRuleOf(standard: Standard, voltageV: number | null): ClearanceRule | null {
  const rules = standard.rules.filter(({ kind }) => kind === "conductor");
  const atV = voltageV ?? standard.conductor.assumedVoltageV;
  if (atV === null) return rules[0] ?? null;
  return rules
    .filter((rule) => holdsVoltage(rule, atV))
    .reduce<ClearanceRule | null>((most, rule) => (most === null || rule.minimumM > most.minimumM ? rule : most), null);
}

/**
 * Whether no conductor rule of a standard holds a line-to-line voltage because all of them begin above it: service drops and the like, for which
 * no distance is asked, only that branches do not rub the wire.
 */
export function isBelowConductorRules(standard: Standard, voltageV: number): boolean {
  return standard.rules
    .filter(({ kind }) => kind === "conductor")
    .every((rule) => voltageV < (rule.fromV ?? 0) || voltageV <= (rule.overV ?? -1));
}

/** Whether a line-to-line voltage is in the class a rule is for. */
export function holdsVoltage({ overV, fromV, upToV, belowV }: ClearanceRule, voltageV: number): boolean {
  if (overV !== null && voltageV <= overV) return false;
  if (fromV !== null && voltageV < fromV) return false;
  if (upToV !== null && voltageV > upToV) return false;
  return belowV === null || voltageV < belowV;
}

/**
 * A rule's minimum in meters at an altitude above sea level, looked up in its bands and never computed. Its own minimum, the largest,
 * where it has no bands or the altitude is unknown; null above the last band, where its source says nothing.
 */
export function minimumAtM(rule: ClearanceRule, altitudeM: number | null): number | null {
  if (altitudeM === null || rule.byAltitude.length === 0) return rule.minimumM;
  return rule.byAltitude.find(({ upToM }) => altitudeM <= upToM)?.minimumM ?? null;
}
