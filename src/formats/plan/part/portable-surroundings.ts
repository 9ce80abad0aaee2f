import Flatbush from "flatbush";
import type { PlaneShapes } from "../../../core/plane/plane-shapes.ts";
import type { Surroundings } from "../../../core/surroundings/surroundings.ts";

/** Surroundings as plain data that threads can be sent: indexes as their bytes, and nothing that only a plan's files show. */
export interface PortableSurroundings {
  readonly planes: ReadonlyMap<number, unknown>;
  readonly rest: Omit<Surroundings, "planes">;
}

type Floats = Float64Array | Uint32Array | Uint8Array;

/** An index by the bytes it is made of. */
interface IndexBytes {
  readonly index: ArrayBufferLike;
}

/**
 * Surroundings to be sent to threads. Where memory can be shared its arrays are copied once into memory that all threads read; elsewhere every thread
 * gets a copy. {@link restoredSurroundings} makes surroundings of them again.
 */
export function portableSurroundings(surroundings: Surroundings): PortableSurroundings {
  const { planes, ...rest } = surroundings;
  return {
    planes: new Map([...planes].map(([plane, shapes]) => [plane, portable(shapes)])),
    rest: { ...rest, features: [], sight: [] },
  };
}

/** The surroundings again, without the features and areas that only files show. */
export const restoredSurroundings = ({ planes, rest }: PortableSurroundings): Surroundings => ({
  ...rest,
  planes: new Map([...planes].map(([plane, shapes]) => [plane, restored(shapes) as PlaneShapes])),
});

function portable(value: unknown): unknown {
  if (value instanceof Flatbush) return { index: shared(new Uint8Array(value.data)).buffer } satisfies IndexBytes;
  if (isArray(value)) return shared(value);
  return isRecord(value) ? membersThrough(value, portable) : value;
}

function restored(value: unknown): unknown {
  if (isIndex(value)) return Flatbush.from(value.index);
  return isRecord(value) && !isArray(value) ? membersThrough(value, restored) : value;
}

/** The same numbers in memory that threads share, where there is such memory. */
function shared<A extends Floats>(array: A): A {
  if (!canShare()) return array;
  const copy = new (array.constructor as new (buffer: SharedArrayBuffer) => A)(new SharedArrayBuffer(array.byteLength));
  copy.set(array);
  return copy;
}

/** Node shares memory always, a page only where its server isolates it from others. */
const canShare = (): boolean => typeof SharedArrayBuffer !== "undefined" && globalThis.crossOriginIsolated !== false;

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null;
const isArray = (value: unknown): value is Floats => ArrayBuffer.isView(value);
const isIndex = (value: unknown): value is IndexBytes => isRecord(value) && "index" in value;

const membersThrough = (value: object, change: (member: unknown) => unknown): Record<string, unknown> =>
  Object.fromEntries(Object.entries(value).map(([name, member]) => [name, change(member)]));
