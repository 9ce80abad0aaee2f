import Flatbush from "flatbush";
import { nearestShare } from "../../../plane/segments.ts";
import { endOf, type RoadGraph } from "../road-graph.ts";

/** An edge of the graph near a point. */
export interface NearEdge {
  readonly edge: number;
  /** Share along the edge, in its line's direction, of the point's foot, and the foot. */
  readonly share: number;
  readonly xM: number;
  readonly yM: number;
  readonly asideM: number;
  /** Whether the point lies to the left of the edge in its line's direction. */
  readonly isLeft: boolean;
}

/** The edges of a graph, found by place. */
export class EdgeIndex {
  readonly #boxes: Flatbush | null;

  constructor(readonly graph: RoadGraph) {
    const count = graph.roadOf.length;
    this.#boxes = count === 0 ? null : new Flatbush(count);
    for (let edge = 0; edge < count; edge += 1) {
      const [a, b] = [graph.startOf[2 * edge]!, endOf(graph, 2 * edge)];
      const [ax, ay, bx, by] = [graph.xM[a]!, graph.yM[a]!, graph.xM[b]!, graph.yM[b]!];
      this.#boxes!.add(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by));
    }
    this.#boxes?.finish();
  }

  /** Edges within a distance of a point, in the order of the graph. */
  near(xM: number, yM: number, reachM: number): NearEdge[] {
    const { graph } = this;
    const hits = this.#boxes?.search(xM - reachM, yM - reachM, xM + reachM, yM + reachM) ?? [];
    return hits
      .sort((one, other) => one - other)
      .map((edge) => {
        const [a, b] = [graph.startOf[2 * edge]!, endOf(graph, 2 * edge)];
        const [ax, ay, bx, by] = [graph.xM[a]!, graph.yM[a]!, graph.xM[b]!, graph.yM[b]!];
        const share = nearestShare(xM, yM, ax, ay, bx, by);
        const [x, y] = [ax + share * (bx - ax), ay + share * (by - ay)];
        const isLeft = (bx - ax) * (yM - ay) - (by - ay) * (xM - ax) > 0;
        return { edge, share, xM: x, yM: y, asideM: Math.hypot(xM - x, yM - y), isLeft };
      })
      .filter(({ asideM }) => asideM <= reachM);
  }
}
