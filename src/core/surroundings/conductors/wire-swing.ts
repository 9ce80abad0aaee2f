import type { WireLoad } from "./wire-load.ts";

/**
 * Angle in radians from the vertical to which a steady wind swings a wire: atan(wind / weight). Swing measured in the field is smaller, so it
 * is on the safe side. Gusts are not modeled.
 */
export const swingAngleRad = (load: WireLoad): number => Math.atan2(load.windNPerM, load.verticalNPerM);

/**
 * Where a swung wire hangs relative to its chord at rest, meters: across to the lee and below. (I + D) sin of the angle across,
 * (I + D) cos of it less I below, for a free insulator string of length I; without one, D sin and D cos (Clapp 1993; with a string: from
 * memory, the same geometry). The string is taken to swing as the wire does. `dropM` is the drop at the place in question, at mid-span the sag.
 */
export function blowOut(
  dropM: number,
  angleRad: number,
  stringM = 0,
): { readonly acrossM: number; readonly belowM: number } {
  const armM = stringM + dropM;
  return { acrossM: armM * Math.sin(angleRad), belowM: armM * Math.cos(angleRad) - stringM };
}
