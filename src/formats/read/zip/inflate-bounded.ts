import { Gunzip, Inflate } from "fflate";
import { withThousands } from "../../../core/units/with-thousands.ts";
import { UnreadableError } from "../../geojson/open-document.ts";
import type { ReadingTime } from "../../geojson/reading-time.ts";
import { GrowingBytes } from "../growing-bytes.ts";
import type { Limits } from "../limits.ts";
import { damaged, unreadableFile } from "../unreadable-file.ts";
import { crc32 } from "./crc32.ts";

/** Times its size that Deflate can grow at most (zlib technical details). */
const MOST_GROWTH = 1032;
/** Bytes handed to the decompressor at once, so that what one step can make is bounded. */
const STEP_BYTES = 16_384;

/** Bytes that may still be produced; shared by the entries of one zip. */
export interface Budget {
  left: number;
  readonly time: ReadingTime;
}

export const newBudget = (limits: Limits, time: ReadingTime): Budget => ({ left: limits.unzippedBytes, time });

/**
 * The `size` bytes that a Deflate stream of a zip unpacks to, into that much memory and no more. Throws UnreadableError when that passes
 * the budget, as soon as the bytes made pass the ratio, and for a stream that is damaged or of another size.
 */
export function inflateEntry(packed: Uint8Array, size: number, budget: Budget, limits: Limits): Uint8Array {
  if (size > budget.left) throw tooLarge("zip", limits);
  const whole = new Uint8Array(size);
  let at = 0;
  unpack(packed, "zip", budget, limits, (part) => {
    if (at + part.length > size) throw damaged("zip file", "an entry is longer than it says");
    whole.set(part, at);
    at += part.length;
  });
  if (at !== size) throw damaged("zip file", "an entry is shorter than it says");
  return whole;
}

/** The unpacked bytes of a gzip file. Throws UnreadableError as soon as they pass the budget or the ratio, and for a damaged file. */
export function gunzip(packed: Uint8Array, budget: Budget, limits: Limits): Uint8Array {
  const whole = new GrowingBytes(Math.min(saidLength(packed), packed.length * MOST_GROWTH, limits.unzippedBytes));
  const members = unpack(packed, "gzip", budget, limits, (part) => whole.bytes(part));
  const unpacked = whole.end();
  if (members === 1) checkTrailer(packed, unpacked);
  return unpacked;
}

/** The length a gzip file ends with, of its last member and modulo 2^32 (RFC 1952 section 2.3.1): a guess until it is unpacked. */
function saidLength(packed: Uint8Array): number {
  if (packed.length < 18) return 0;
  return new DataView(packed.buffer, packed.byteOffset, packed.byteLength).getUint32(packed.length - 4, true);
}

/** Unpacks step by step, counting what is made; gives the number of members, which is one but for joined gzip files. */
function unpack(
  packed: Uint8Array,
  kind: "zip" | "gzip",
  budget: Budget,
  limits: Limits,
  take: (part: Uint8Array) => void,
): number {
  let produced = 0;
  let isComplete = false;
  const count = (part: Uint8Array, isLast: boolean): void => {
    produced += part.length;
    budget.left -= part.length;
    if (budget.left < 0) throw tooLarge(kind, limits);
    if (produced > limits.ratioFreeBytes && produced > packed.length * limits.unzippedRatio) {
      throw unreadableFile(
        "suspicious-zip",
        `The ${kind} file unpacks to more than ${limits.unzippedRatio} times its size, which no data does.`,
        "Unpack it yourself and give the file inside, if you trust it.",
      );
    }
    if (part.length > 0) take(part);
    isComplete = isLast;
  };
  const stream = kind === "zip" ? new Inflate(count) : new Gunzip(count);
  let members = 1;
  if (stream instanceof Gunzip) stream.onmember = () => members++;
  try {
    for (let at = 0; at < packed.length; at += STEP_BYTES) {
      budget.time.step();
      stream.push(packed.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= packed.length);
    }
  } catch (error) {
    if (error instanceof UnreadableError) throw error;
    throw damaged(`${kind} file`, "its packed bytes cannot be unpacked");
  }
  if (!isComplete) throw damaged(`${kind} file`, "its end is missing");
  return members;
}

/** The sum and length at the end of a gzip file with one member (RFC 1952 section 2.3.1); several members keep one each. */
function checkTrailer(packed: Uint8Array, whole: Uint8Array): void {
  const view = new DataView(packed.buffer, packed.byteOffset, packed.byteLength);
  const isRight =
    packed.length >= 18 &&
    view.getUint32(packed.length - 8, true) === crc32(whole) &&
    view.getUint32(packed.length - 4, true) === whole.length % 2 ** 32;
  if (!isRight) throw damaged("gzip file", "its sum is wrong or its end is missing");
}

const tooLarge = (kind: string, limits: Limits): Error =>
  unreadableFile(
    "too-large",
    `The ${kind} file unpacks to more than ${withThousands(limits.unzippedBytes)} bytes.`,
    "Split the data.",
  );
