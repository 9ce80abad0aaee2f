import type { Ring } from "./mark-shape.ts";

/** Distance in pixels from a point to a ring's outline, positive inside, with how far along the outline the nearest point lies. */
export interface SignedDistance {
  readonly distancePx: number;
  readonly alongPx: number;
}

/** Signed distance of a point to a closed ring, by its nearest edge; inside is told by the even-odd rule. */
export function signedDistance(ring: Ring, x: number, y: number): SignedDistance {
  let nearestSquared = Number.POSITIVE_INFINITY;
  let alongPx = 0;
  let walkedPx = 0;
  let isInside = false;
  for (let index = 0; index < ring.length; index += 1) {
    const [ax, ay] = ring[index]!;
    const [bx, by] = ring[(index + 1) % ring.length]!;
    const dx = bx - ax;
    const dy = by - ay;
    const lengthSquared = dx * dx + dy * dy;
    const share = lengthSquared === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / lengthSquared));
    const offX = x - ax - share * dx;
    const offY = y - ay - share * dy;
    const squared = offX * offX + offY * offY;
    const lengthPx = Math.sqrt(lengthSquared);
    if (squared < nearestSquared) {
      nearestSquared = squared;
      alongPx = walkedPx + share * lengthPx;
    }
    if (ay > y !== by > y && x < ax + ((y - ay) * dx) / dy) isInside = !isInside;
    walkedPx += lengthPx;
  }
  const distancePx = Math.sqrt(nearestSquared);
  return { distancePx: isInside ? distancePx : -distancePx, alongPx };
}

/** Length in pixels of a closed ring. */
export function ringLengthPx(ring: Ring): number {
  let sum = 0;
  for (let index = 0; index < ring.length; index += 1) {
    const [ax, ay] = ring[index]!;
    const [bx, by] = ring[(index + 1) % ring.length]!;
    sum += Math.hypot(bx - ax, by - ay);
  }
  return sum;
}
