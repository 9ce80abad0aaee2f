import type { Measured } from "./search-context.ts";

/**
 * The points a headroom lies between: where a thing begins under the crown, at its own height, and the crown's lower surface above it. Where
 * the crown does not reach over the thing yet, its edge toward it.
 *
 * `begin` is where the thing begins, meters from the trunk, `share` the share of the crown's radius there, `lowerM` the height of the lower
 * surface at that share.
 */
export function headroomPoints(
  begin: { readonly xM: number; readonly yM: number },
  share: number,
  thingM: number,
  lowerM: number,
): NonNullable<Measured["nearest"]> {
  const scale = share > 1 ? 1 / share : 1;
  return {
    thing: { xM: begin.xM, yM: begin.yM, heightM: thingM },
    crown: { xM: begin.xM * scale, yM: begin.yM * scale, heightM: lowerM },
  };
}
