import { joinBytes } from "../join-bytes.ts";
import { keyText } from "../json/key-text.ts";
import { memberCuts } from "./member-cuts.ts";

/** What stands around the features of a FeatureCollection: all bytes before the first and behind the last. */
export interface CollectionFrame {
  readonly head: Uint8Array;
  readonly tail: Uint8Array;
}

const encoder = new TextEncoder();

/** The frame of a collection that was none in its file. */
export const plainFrame = (): CollectionFrame => ({
  head: encoder.encode('{"type":"FeatureCollection","features":[\n'),
  tail: encoder.encode("\n]}\n"),
});

/** The frame without some members of the collection, such as `bbox`; every other byte is kept. */
export function withoutMembers({ head, tail }: CollectionFrame, names: readonly string[]): CollectionFrame {
  const whole = joinBytes([head, tail]);
  const start = whole.indexOf(0x7b);
  const { cuts } = memberCuts(whole, start, whole.length, (keyStart, keyEnd) =>
    names.includes(keyText(whole, keyStart, keyEnd)),
  );
  return { head: copyWithout(whole, 0, head.length, cuts), tail: copyWithout(whole, head.length, whole.length, cuts) };
}

/** The features stand between head and tail, so no cut reaches across. */
function copyWithout(
  bytes: Uint8Array,
  start: number,
  end: number,
  cuts: readonly (readonly [number, number])[],
): Uint8Array {
  const kept: Uint8Array[] = [];
  let at = start;
  for (const [from, to] of cuts) {
    if (from < start || from >= end) continue;
    kept.push(bytes.subarray(at, from));
    at = to;
  }
  kept.push(bytes.subarray(at, end));
  return joinBytes(kept);
}
