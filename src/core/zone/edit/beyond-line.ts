import type { Position } from "geojson";

interface Place {
  readonly lonDeg: number;
  readonly latDeg: number;
}

/** How far in degrees a line is drawn on beyond its ends: farther than any zone reaches. */
const BEYOND_DEG = 1;

/**
 * Which places lie on the other side of a line than the first, the line drawn on straight beyond its ends: the way from the first place crosses it
 * an odd number of times. For lines that do not cross themselves. Nothing lies beyond a line of less than two different positions.
 */
export function beyondLine(places: readonly Place[], line: readonly Position[]): boolean[] {
  const first = places[0];
  const path = drawnOn(line.filter((at, index) => index === 0 || !isSame(at, line[index - 1]!)));
  if (first === undefined || path === null) return places.map(() => false);
  return places.map((place) => {
    let isBeyond = false;
    for (let at = 1; at < path.length; at += 1) {
      if (areCrossing([first.lonDeg, first.latDeg], [place.lonDeg, place.latDeg], path[at - 1]!, path[at]!))
        isBeyond = !isBeyond;
    }
    return isBeyond;
  });
}

function drawnOn(line: readonly Position[]): Position[] | null {
  if (line.length < 2) return null;
  const [first, second] = [line[0]!, line[1]!];
  const [beforeLast, last] = [line[line.length - 2]!, line[line.length - 1]!];
  return [beyond(second, first), ...line, beyond(beforeLast, last)];
}

function beyond(from: Position, to: Position): Position {
  const [dx, dy] = [to[0]! - from[0]!, to[1]! - from[1]!];
  const times = BEYOND_DEG / Math.hypot(dx, dy);
  return [to[0]! + dx * times, to[1]! + dy * times];
}

/** A position on a way counts as on its right, so that a way through a corner of the line crosses it once. */
function areCrossing(a: Position, b: Position, c: Position, d: Position): boolean {
  return isLeft(a, b, c) !== isLeft(a, b, d) && isLeft(c, d, a) !== isLeft(c, d, b);
}

const isLeft = (from: Position, to: Position, at: Position): boolean =>
  (to[0]! - from[0]!) * (at[1]! - from[1]!) - (to[1]! - from[1]!) * (at[0]! - from[0]!) > 0;

const isSame = (a: Position, b: Position): boolean => a[0] === b[0] && a[1] === b[1];
