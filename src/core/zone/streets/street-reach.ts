import type { StreetNet } from "./street-net.ts";

/**
 * Lengths in meters of the shortest ways along streets from a vertex to every vertex no farther than `farthestM`, itself included (Dijkstra
 * 1959, with a binary heap).
 */
export function streetReach(net: StreetNet, start: number, farthestM: number): Map<number, number> {
  const reached = new Map<number, number>();
  const heapM: number[] = [0];
  const heap: number[] = [start];
  while (heap.length > 0) {
    const [wayM, vertex] = pop(heapM, heap);
    if (reached.has(vertex)) continue;
    reached.set(vertex, wayM);
    for (const edge of net.edgesAt[vertex]!) {
      const next = net.from[edge] === vertex ? net.to[edge]! : net.from[edge]!;
      const nextM = wayM + net.lengthM[edge]!;
      if (nextM <= farthestM && !reached.has(next)) push(heapM, heap, nextM, next);
    }
  }
  return reached;
}

function push(keys: number[], values: number[], key: number, value: number): void {
  let at = keys.length;
  keys.push(key);
  values.push(value);
  while (at > 0) {
    const parent = (at - 1) >> 1;
    if (keys[parent]! <= key) break;
    keys[at] = keys[parent]!;
    values[at] = values[parent]!;
    at = parent;
  }
  keys[at] = key;
  values[at] = value;
}

function pop(keys: number[], values: number[]): [key: number, value: number] {
  const top: [number, number] = [keys[0]!, values[0]!];
  const key = keys.pop()!;
  const value = values.pop()!;
  if (keys.length === 0) return top;
  let at = 0;
  for (;;) {
    let child = 2 * at + 1;
    if (child >= keys.length) break;
    if (child + 1 < keys.length && keys[child + 1]! < keys[child]!) child += 1;
    if (keys[child]! >= key) break;
    keys[at] = keys[child]!;
    values[at] = values[child]!;
    at = child;
  }
  keys[at] = key;
  values[at] = value;
  return top;
}
