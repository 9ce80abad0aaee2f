/** A seeded source of numbers: whole ones below a bound, and picks. */
export interface Random {
  (below: number): number;
  readonly pick: <T>(from: readonly T[]) => T;
}

/** Small seeded generator (Tommy Ettinger's mulberry32, public domain). */
export function randomFrom(seed: number): Random {
  let state = seed | 0;
  const below = (bound: number): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) % bound;
  };
  return Object.assign(below, { pick: <T>(from: readonly T[]): T => from[below(from.length)]! });
}
