import type { ThinnedPoints } from "../../../src/formats/tiles/thinned.ts";

/** Points in a quarter of the map, of five classes, the same on every run. */
export function points(count: number): ThinnedPoints {
  let state = 7;
  const next = () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  return {
    x: Float64Array.from({ length: count }, () => 0.3 + next() * 0.001),
    y: Float64Array.from({ length: count }, () => 0.4 + next() * 0.001),
    classOf: Uint8Array.from({ length: count }, () => Math.floor(next() * 5)),
    wholeClass: 0,
  };
}

/** Lines of many lengths, one of them longer than what is read at once, the last without an end. */
export function byteLines(): { readonly text: string; readonly bytes: Uint8Array } {
  const text = [...Array.from({ length: 200 }, (_, at) => "ä".repeat(at)), "", "b".repeat(9_000_000), "last"].join(
    "\n",
  );
  return { text, bytes: new TextEncoder().encode(text) };
}
