/** Park and Miller's minimal standard generator, 0 to 1; its first numbers are thrown away, as they follow the seed. */
export function seeded(seed: number): () => number {
  let state = (seed * 7919) % 2_147_483_647;
  const next = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  for (let turn = 0; turn < 3; turn += 1) next();
  return next;
}

/** Scenes a kind; SCENES=10000 runs them all, which takes minutes. */
export const SCENES = Number(process.env.SCENES ?? 300);

/** Time for so many, a busy machine allowed for. */
export const TIMEOUT_MS = 30_000 + SCENES * 100;
