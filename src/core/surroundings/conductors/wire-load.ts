import { NEWTONS_PER_CUBIC_METER_PER_POUND_CUBIC_FOOT } from "../../units/force.ts";

/** Weight of glaze ice, 57 lb/ft3 in N/m3: CPUC General Order 95, Rule 43. */
export const ICE_N_PER_M3 = 57 * NEWTONS_PER_CUBIC_METER_PER_POUND_CUBIC_FOOT;

/** Load on a meter of wire in newtons: downward, across, and the two together. */
export interface WireLoad {
  readonly verticalNPerM: number;
  readonly windNPerM: number;
  readonly resultantNPerM: number;
}

/**
 * Load on a meter of wire with radial ice and wind square to the span: the wind's pressure acts on the diameter over the ice, a ring of ice adds
 * pi t (d + t) of its weight. No shape or height factor. Throws RangeError for a negative or missing number.
 */
export function wireLoad(
  wire: { readonly diameterM: number; readonly weightNPerM: number },
  windPa: number,
  iceM: number,
  iceNPerM3 = ICE_N_PER_M3,
): WireLoad {
  const { diameterM, weightNPerM } = wire;
  for (const [what, value] of Object.entries({ diameterM, weightNPerM, windPa, iceM, iceNPerM3 }))
    if (!(value >= 0)) throw new RangeError(`Expected ${what} of 0 or more, got ${value}`);
  const verticalNPerM = weightNPerM + Math.PI * iceM * (diameterM + iceM) * iceNPerM3;
  const windNPerM = windPa * (diameterM + 2 * iceM);
  return { verticalNPerM, windNPerM, resultantNPerM: Math.hypot(verticalNPerM, windNPerM) };
}

/** Pressure in pascals of a wind in m/s on a wire, 0.613 v^2: the metric form of 0.00256 V^2 lb/ft2 with mph (Clapp 1993). */
export const windPressurePa = (windMPerS: number): number => 0.613 * windMPerS * windMPerS;
