import { pascalsFromPsi } from "../../units/force.ts";
import { CELSIUS_PER_FAHRENHEIT } from "../../units/temperature.ts";
import type { WireStretch } from "./change-of-state.ts";

/** Modulus of elasticity and expansion of what a wire is made of. */
export interface Metal {
  readonly modulusPa: number;
  readonly expansionPerK: number;
  readonly source: string;
}

const GO_95 = "CPUC General Order 95, Appendix C (a)";
const metal = (psi: number, perF: number, source: string): Metal => ({
  modulusPa: pascalsFromPsi(psi),
  expansionPerK: perF / CELSIUS_PER_FAHRENHEIT,
  source,
});

/** Metals of overhead conductors, psi and per degree Fahrenheit as published. */
export const METALS = {
  copper: metal(17e6, 9.4e-6, GO_95),
  steelSolid: metal(29e6, 6.5e-6, GO_95),
  steelStranded: metal(21e6, 6.5e-6, GO_95),
  aluminum: metal(10e6, 12.8e-6, "from memory"),
} as const satisfies Readonly<Record<string, Metal>>;

/**
 * Stiffness and expansion of a wire of several metals that stretch together: E A adds up, the expansion is the mean by E A. Holds while every
 * part carries load; above the temperature where aluminum goes slack it is on the safe side.
 */
export function compositeStretch(
  parts: readonly { readonly metal: Metal; readonly areaM2: number }[],
): WireStretch & { readonly areaM2: number } {
  let areaM2 = 0;
  let stiffnessN = 0;
  let expanding = 0;
  for (const part of parts) {
    areaM2 += part.areaM2;
    stiffnessN += part.areaM2 * part.metal.modulusPa;
    expanding += part.areaM2 * part.metal.modulusPa * part.metal.expansionPerK;
  }
  if (!(stiffnessN > 0)) throw new RangeError(`Expected a wire with some area, got ${areaM2} m2`);
  return { areaM2, stiffnessN, expansionPerK: expanding / stiffnessN };
}
