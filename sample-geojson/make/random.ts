/** A stream of repeatable random numbers. Every part of the town has its own, so that changing one part leaves the others alone. */
export interface Random {
  /** The next number in [0, 1). */
  next(): number;
  between(low: number, high: number): number;
  chance(share: number): boolean;
  pick<T>(list: readonly T[]): T;
  /** Nearly normal with mean 0 and standard deviation 1, from -6 to 6: the sum of twelve uniforms less six. */
  spread(): number;
}

/** The stream of a name; the same name gives the same stream. Mulberry32 (T. Ettinger, public domain), seeded by FNV-1a of the name. */
export function randomStream(name: string): Random {
  let state = 0x811c9dc5;
  for (let at = 0; at < name.length; at += 1) state = Math.imul(state ^ name.charCodeAt(at), 0x01000193);
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return {
    next,
    between: (low, high) => low + next() * (high - low),
    chance: (share) => next() < share,
    pick: (list) => list[Math.floor(next() * list.length)]!,
    spread: () => {
      let sum = -6;
      for (let draw = 0; draw < 12; draw += 1) sum += next();
      return sum;
    },
  };
}
