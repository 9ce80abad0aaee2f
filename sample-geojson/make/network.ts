import { crossing, direction, distance, type Line, type Point } from "./line.ts";
import { STREETS, type Street } from "./streets.ts";

/** A piece of a street between two nodes. */
export interface Block {
  readonly street: Street;
  /** Place of the street in `STREETS`. */
  readonly streetIndex: number;
  readonly line: Line;
}

/** One street leaving a node. */
export interface Leg {
  readonly street: Street;
  /** Away from the node. */
  readonly heading: Point;
}

export interface Node {
  readonly at: Point;
  readonly legs: readonly Leg[];
}

export interface Network {
  readonly blocks: readonly Block[];
  readonly nodes: readonly Node[];
}

/** The streets cut at every place where two of them meet, with both pieces ending on exactly the same point. */
export function streetNetwork(): Network {
  const cuts = STREETS.map((street) => new Map<number, Point>([[0, street.line[0]!]]));
  for (let first = 0; first < STREETS.length; first += 1) {
    for (let second = first + 1; second < STREETS.length; second += 1) cutBoth(first, second, cuts);
  }
  const blocks = STREETS.flatMap((street, streetIndex) =>
    pieces(street.line, cuts[streetIndex]!).map((line) => ({ street, streetIndex, line })),
  );
  return { blocks, nodes: nodesOf(blocks) };
}

function cutBoth(first: number, second: number, cuts: readonly Map<number, Point>[]): void {
  const a = STREETS[first]!.line;
  const b = STREETS[second]!.line;
  for (let i = 1; i < a.length; i += 1) {
    for (let j = 1; j < b.length; j += 1) {
      const hit = crossing(a[i - 1]!, a[i]!, b[j - 1]!, b[j]!);
      if (hit === null) continue;
      const [x1, y1] = a[i - 1]!;
      const [x2, y2] = a[i]!;
      const raw: Point = [x1 + hit.onFirst * (x2 - x1), y1 + hit.onFirst * (y2 - y1)];
      const at = [...a, ...b].find((vertex) => distance(vertex, raw) < 0.01) ?? raw;
      cuts[first]!.set(i - 1 + hit.onFirst, at);
      cuts[second]!.set(j - 1 + hit.onSecond, at);
    }
  }
}

function pieces(line: Line, cuts: ReadonlyMap<number, Point>): Line[] {
  const places = [...cuts, [line.length - 1, line[line.length - 1]!] as const].sort((p, q) => p[0] - q[0]);
  const result: Line[] = [];
  for (let at = 1; at < places.length; at += 1) {
    const [from, start] = places[at - 1]!;
    const [to, end] = places[at]!;
    if (distance(start, end) < 0.01) continue;
    const between = line.filter(
      (vertex, index) => index > from && index < to && distance(vertex, start) > 0.01 && distance(vertex, end) > 0.01,
    );
    result.push([start, ...between, end]);
  }
  return result;
}

function nodesOf(blocks: readonly Block[]): Node[] {
  const legsAt = new Map<string, { at: Point; legs: Leg[] }>();
  const add = (at: Point, leg: Leg): void => {
    const key = `${at[0].toFixed(2)} ${at[1].toFixed(2)}`;
    const known = legsAt.get(key);
    if (known === undefined) legsAt.set(key, { at, legs: [leg] });
    else known.legs.push(leg);
  };
  for (const { street, line } of blocks) {
    const end = line.length - 1;
    add(line[0]!, { street, heading: direction(line[0]!, line[1]!) });
    add(line[end]!, { street, heading: direction(line[end]!, line[end - 1]!) });
  }
  return [...legsAt.values()];
}
