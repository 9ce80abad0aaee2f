import type { Random } from "./random.ts";

const PIECES = [
  ...["{", "}", "[", "]", ",", ":", '"', "\\", "0", "-", "e", ".", "\n", " ", "null", "true", '"id":1,', "1e999"],
  ...["\u00e9", "\u001e", "\ufeff", "\u0000", "9".repeat(40), "[".repeat(200), '"crs":{"type":"name"},', "\\ud800"],
].map((text) => new TextEncoder().encode(text));

const STRUCTURE = new Set(Array.from("{}[],:", (letter) => letter.charCodeAt(0)));

/** Bytes with one to four of: a bit flipped, a run cut out, doubled or moved, a piece put in or in place of a byte, the end cut off. */
export function mutateBytes(bytes: Uint8Array, random: Random): Uint8Array {
  let list = [...bytes];
  for (let times = 1 + random(4); times > 0; times -= 1) {
    const at = placeIn(list, random);
    const kind = random(8);
    if (kind === 0 && at < list.length) list[at] = list[at]! ^ (1 << random(8));
    else if (kind === 1) list.splice(at, 1 + random(6));
    else if (kind === 2) list.splice(at, 0, ...list.slice(at, at + random(60)));
    else if (kind === 3) list.splice(at, 0, ...random.pick(PIECES));
    else if (kind === 4) list.splice(at, 1, ...random.pick(PIECES));
    else if (kind === 5) list.splice(placeIn(list, random), 0, ...list.splice(at, random(40)));
    else if (kind === 6) list[at] = random(256);
    else if (random(10) === 0) list = list.slice(0, at);
  }
  return Uint8Array.from(list);
}

/** Any place, or as often one beside a bracket or a comma, where damage changes the structure. */
function placeIn(list: readonly number[], random: Random): number {
  if (random(2) === 0) return random(list.length + 1);
  const structural = list.flatMap((byte, index) => (STRUCTURE.has(byte) ? [index, index + 1] : []));
  return structural.length === 0 ? 0 : random.pick(structural);
}
