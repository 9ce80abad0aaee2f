import type { Centerline } from "../centerline.ts";
import { buildRoadGraph, type RoadGraph } from "./road-graph.ts";

/** The graphs of a network, each plane's built once when it is first asked for. */
export class RoadGraphs {
  readonly #byPlane = new Map<number, RoadGraph>();

  constructor(readonly centerlines: readonly Centerline[]) {}

  of(plane: number): RoadGraph {
    let graph = this.#byPlane.get(plane);
    if (graph === undefined) {
      graph = buildRoadGraph(this.centerlines, plane);
      this.#byPlane.set(plane, graph);
    }
    return graph;
  }
}
