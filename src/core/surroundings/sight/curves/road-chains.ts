import { bearingGapDeg } from "../../../units/compass.ts";
import type { Centerline } from "../../centerline.ts";
import { bearingOf, endOf, type RoadGraph, reverseOf, roadOfDirection } from "../road-graph.ts";

/** Sharpest bend in degrees that one road is followed through at a node. Our policy. */
const MAX_BEND_DEG = 75;

/** One road followed through its nodes: directions of the graph, each starting where the one before ends. */
export type RoadChain = readonly number[];

/**
 * Every road of a network as chains, each edge in one of them: through a node goes the same centerline, else one of the same name and level, else
 * the only one there is; the straightest first.
 */
export function roadChains(graph: RoadGraph, centerlines: readonly Centerline[]): RoadChain[] {
  const taken = new Uint8Array(graph.roadOf.length);
  const onward = (direction: number): number | null => {
    const road = centerlines[roadOfDirection(graph, direction)]!;
    const leaving = graph.leaving[endOf(graph, direction)]!;
    const heading = bearingOf(graph, direction);
    let best: number | null = null;
    let bestBend = Number.POSITIVE_INFINITY;
    for (const next of leaving) {
      if (next === reverseOf(direction) || taken[next >> 1] === 1) continue;
      const other = centerlines[roadOfDirection(graph, next)]!;
      const isOne = other === road || leaving.length === 2 || (road.name !== null && other.name === road.name);
      if (!isOne || other.level !== road.level || (other.oneway === 0) !== (road.oneway === 0)) continue;
      const bend = bearingGapDeg(heading, bearingOf(graph, next));
      if (bend > MAX_BEND_DEG) continue;
      const ranked = other === road ? bend - 360 : bend;
      if (ranked >= bestBend) continue;
      best = next;
      bestBend = ranked;
    }
    return best;
  };
  const follow = (start: number): number[] => {
    const chain: number[] = [];
    for (let next = onward(start); next !== null; next = onward(next)) {
      taken[next >> 1] = 1;
      chain.push(next);
    }
    return chain;
  };
  const chains: number[][] = [];
  for (let edge = 0; edge < graph.roadOf.length; edge += 1) {
    if (taken[edge] === 1) continue;
    taken[edge] = 1;
    const ahead = follow(2 * edge);
    const behind = follow(2 * edge + 1)
      .map(reverseOf)
      .reverse();
    chains.push([...behind, 2 * edge, ...ahead]);
  }
  return chains;
}
