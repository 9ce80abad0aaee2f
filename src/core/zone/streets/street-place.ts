import type { StreetNet } from "./street-net.ts";

/** Where a tree stands along a street. */
export interface StreetPlace {
  readonly edge: number;
  /** Meters from the edge's first vertex to the foot of the tree on it. */
  readonly alongM: number;
  /** Street and side of it, the same for all trees on that side of a straight street, whichever way its lines were drawn. */
  readonly side: string;
}

/** The place of a point on the nearest street within `reachM` meters; null where there is none. */
export function streetPlace(net: StreetNet, x: number, y: number, reachM: number): StreetPlace | null {
  let best: StreetPlace | null = null;
  let bestM = reachM;
  for (const edge of net.index.search(x - reachM, y - reachM, x + reachM, y + reachM).sort((a, b) => a - b)) {
    const [a, b] = [net.from[edge]!, net.to[edge]!];
    const [dx, dy] = [net.xM[b]! - net.xM[a]!, net.yM[b]! - net.yM[a]!];
    const [px, py] = [x - net.xM[a]!, y - net.yM[a]!];
    const lengthM = net.lengthM[edge]!;
    const alongM = Math.min(lengthM, Math.max(0, (px * dx + py * dy) / lengthM));
    const awayM = Math.hypot(px - (alongM * dx) / lengthM, py - (alongM * dy) / lengthM);
    if (awayM > bestM || (best !== null && awayM === bestM)) continue;
    bestM = awayM;
    const isEastward = dx > 0 || (dx === 0 && dy > 0);
    const isLeft = dx * py - dy * px > 0 === isEastward;
    best = { edge, alongM, side: `${net.streetOf[edge]!} ${isLeft ? "left" : "right"}` };
  }
  return best;
}
