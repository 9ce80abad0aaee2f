/** Milliseconds after which the page gets a turn: well under the 50 ms that a hand notices. */
const TURN_MS = 12;

/**
 * Does something for each place from 0 to `count` - 1, giving the page a turn now and then; what is quick is done at once. False when `isWanted` said no
 * meanwhile.
 */
export async function inPieces(count: number, act: (at: number) => void, isWanted: () => boolean): Promise<boolean> {
  let turnStart = performance.now();
  for (let at = 0; at < count; at += 1) {
    act(at);
    // A look at the clock costs as much as a small act.
    if ((at & 63) !== 63 || performance.now() - turnStart < TURN_MS) continue;
    await new Promise((resolve) => setTimeout(resolve));
    if (!isWanted()) return false;
    turnStart = performance.now();
  }
  return true;
}

/** Gives the page a turn whenever the one before is long enough ago; resolves at once until then. */
export function pageTurns(): () => Promise<void> {
  let turnStart = performance.now();
  return async () => {
    if (performance.now() - turnStart < TURN_MS) return;
    await new Promise((resolve) => setTimeout(resolve));
    turnStart = performance.now();
  };
}
