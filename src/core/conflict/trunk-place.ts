import { Neighborhood } from "../plane/neighborhood.ts";
import type { PlaneShapes } from "../plane/plane-shapes.ts";
import type { TreeView } from "./tree-view.ts";

/** How far about the foot of a trunk beside its crown a thing is looked for: no rule about trunks reaches farther. */
const FOOT_REACH_M = 30;

/**
 * Where the trunk's foot stands to the thing at hand. It is what the crown's axis is to it, save where the crown stands beside its trunk: there
 * the thing is looked up again about the foot.
 */
export class TrunkPlace {
  isInside = false;
  /** From the foot to the thing's boundary, or to the line, meters; infinite beyond 30 m of a crown beside its trunk. */
  distanceM = Number.POSITIVE_INFINITY;
  readonly #around = new Neighborhood();
  #searched = -1;

  /** Moves to a thing that `axis` has just loaded. */
  moveTo(axis: Neighborhood, view: TreeView, shapes: PlaneShapes, item: number): void {
    if (!view.isBesideTrunk) {
      this.isInside = axis.isInside;
      this.distanceM = axis.nearest.distanceM;
      return;
    }
    if (this.#searched !== view.row) {
      this.#around.search(shapes, view.footXM, view.footYM, FOOT_REACH_M);
      this.#searched = view.row;
    }
    const position = this.#around.items.subarray(0, this.#around.itemCount).indexOf(item);
    if (position < 0) {
      this.isInside = false;
      this.distanceM = Number.POSITIVE_INFINITY;
      return;
    }
    this.#around.load(position, 0);
    this.isInside = this.#around.isInside;
    this.distanceM = this.#around.nearest.distanceM;
  }
}
