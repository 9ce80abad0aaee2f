import type { Feature, Geometry } from "geojson";
import { linesOf, memoryFile } from "../tiles/byte-file.ts";

/** Gives other work a turn where one is due. */
export type Turn = () => Promise<void>;

/** Bytes parsed, and things made, between two looks at whether a turn is due: a few milliseconds. */
const BETWEEN_BYTES = 200_000;
const BETWEEN_THINGS = 500;

/** What the lines of a JSON lines file say, read one by one: a text of the whole may be longer than a text can be. Throws SyntaxError. */
export async function lineRecords<T>(bytes: Uint8Array, turn: Turn): Promise<T[]> {
  const found: T[] = [];
  let since = 0;
  for (const { text, length } of linesOf(memoryFile(bytes))) {
    if (text !== "") found.push(JSON.parse(text) as T);
    since += length;
    if (since < BETWEEN_BYTES) continue;
    since = 0;
    await turn();
  }
  return found;
}

const HEAD = '{"type":"FeatureCollection","features":[';
const TAIL = "]}";

/**
 * The features of a collection. One that has a feature a line, as a plan's own files have, is read so, for the same reason as above; any other is parsed
 * whole. Throws SyntaxError, and RangeError for a file of the other kind that is longer than a text can be.
 */
export async function featureRecords<G extends Geometry | null>(bytes: Uint8Array, turn: Turn): Promise<Feature<G>[]> {
  const found = await featuresByLine<G>(bytes, turn);
  if (found !== null) return found;
  return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes)).features;
}

/** Null where a line is not one whole feature with a comma to the next. */
async function featuresByLine<G extends Geometry | null>(bytes: Uint8Array, turn: Turn): Promise<Feature<G>[] | null> {
  const found: Feature<G>[] = [];
  let since = 0;
  let isFollowed = true;
  let expected: "head" | "feature" | "end" = "head";
  for (const { text, length } of linesOf(memoryFile(bytes))) {
    if (text === "" && expected !== "feature") continue;
    if (expected === "head") {
      if (text !== HEAD) return null;
      expected = "feature";
      continue;
    }
    if (expected === "end") return null;
    if (text === TAIL) {
      if (isFollowed && found.length > 0) return null;
      expected = "end";
      continue;
    }
    if (!isFollowed) return null;
    isFollowed = text.endsWith(",");
    const feature = featureOf<G>(isFollowed ? text.slice(0, -1) : text);
    if (feature === null) return null;
    found.push(feature);
    since += length;
    if (since < BETWEEN_BYTES) continue;
    since = 0;
    await turn();
  }
  return expected === "end" ? found : null;
}

function featureOf<G extends Geometry | null>(text: string): Feature<G> | null {
  try {
    return JSON.parse(text) as Feature<G>;
  } catch {
    return null;
  }
}

/** Makes something of each thing, with turns between. */
export async function madeInTurns<From, To>(
  things: readonly From[],
  make: (thing: From) => To,
  turn: Turn,
): Promise<To[]> {
  const made: To[] = [];
  for (const thing of things) {
    made.push(make(thing));
    if (made.length % BETWEEN_THINGS === 0) await turn();
  }
  return made;
}
