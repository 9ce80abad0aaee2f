import type { Size, Tree } from "../model/trees.ts";
import type { CrownPlace } from "./crown-place.ts";

/** Half of the 90 % interval of a crown's offset, as a share of it: a plumb line and a tape under the crown, or a clinometer. Our policy. */
const OFFSET_ERROR = 0.2;

/**
 * A tree with its crown where the inventory puts it. The crown stays an upright solid; its axis stands beside the trunk's foot by the offset
 * given, else by that of the stem's middle inside the crown: tan(lean) times (top + base) / 2. Inside the crown the stem of a leaning tree then
 * runs to either side of that axis by tan(lean) times half the crown's depth.
 *
 * How far the axis may be off widens the radius's interval. Without a direction the crown stays over the trunk, and the interval takes the
 * whole offset: it is that far off, nobody knows which way.
 */
export function placeCrown(tree: Tree, { offsetM, leanDeg, bearingDeg }: CrownPlace): Tree {
  const upright = { crownEastM: 0, crownNorthM: 0, stemRunM: 0, crownPlaceSource: null };
  const slope = leanDeg === null ? 0 : Math.tan((leanDeg * Math.PI) / 180);
  const [topM, baseM] = [tree.height.valueM, tree.crownBase.valueM];
  const asideM = offsetM ?? (slope * (topM + baseM)) / 2;
  if (!(asideM > 0)) return { ...tree, ...upright };
  const stemRunM = (slope * (topM - baseM)) / 2;
  if (bearingDeg === null) {
    const source = "beside its trunk, nobody knows on which side: a direction is missing";
    return { ...tree, ...upright, radius: widened(tree.radius, asideM), stemRunM, crownPlaceSource: source };
  }
  const bearing = (bearingDeg * Math.PI) / 180;
  return {
    ...tree,
    radius: widened(tree.radius, asideM * OFFSET_ERROR),
    crownEastM: asideM * Math.sin(bearing),
    crownNorthM: asideM * Math.cos(bearing),
    stemRunM,
    crownPlaceSource: offsetM === null ? "lean of the stem" : "crown offset as measured",
  };
}

const widened = (size: Size, byM: number): Size => ({
  ...size,
  lowM: Math.max(0, size.lowM - byM),
  highM: size.highM + byM,
});
