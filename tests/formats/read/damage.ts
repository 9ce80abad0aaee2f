/** Small seeded generator (Tommy Ettinger's mulberry32, public domain): whole numbers from 0 to below its argument. */
export function randomFrom(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) % below;
  };
}

const EDGES = [0x00, 0x01, 0x7f, 0x80, 0xff];

/** Bytes with one to four of: a bit flipped, a byte or four set to an edge value, a run cut out, a run doubled, the end cut off. */
export function damage(bytes: Uint8Array, random: (below: number) => number): Uint8Array {
  let list = bytes.slice();
  for (let times = 1 + random(4); times > 0; times -= 1) {
    const at = random(Math.max(1, list.length));
    const kind = random(7);
    if (kind < 2) list[at] = list[at]! ^ (1 << random(8));
    else if (kind === 2) list[at] = EDGES[random(EDGES.length)]!;
    else if (kind === 3) list.fill(EDGES[random(EDGES.length)]!, at, at + 4);
    else if (kind === 4) list = joined(list.subarray(0, at), list.subarray(at + 1 + random(8)));
    else if (kind === 5) list = joined(list.subarray(0, at + random(16)), list.subarray(at));
    else if (random(8) === 0) list = list.slice(0, at);
  }
  return list;
}

const joined = (one: Uint8Array, other: Uint8Array): Uint8Array<ArrayBuffer> => {
  const whole = new Uint8Array(one.length + other.length);
  whole.set(one);
  whole.set(other, one.length);
  return whole;
};
