import { Gunzip, Inflate } from "fflate";
import { withThousands } from "../../../core/units/with-thousands.ts";
import { joinBytes } from "../../join-bytes.ts";
import type { Limits } from "../limits.ts";
import { damaged, unreadableFile } from "../unreadable-file.ts";
import { crc32 } from "./crc32.ts";

/** Bytes handed to the decompressor at once, so that what one step can make is bounded (Deflate grows at most 1032 times). */
const STEP_BYTES = 16_384;

/** Bytes that may still be produced; shared by the entries of one zip. */
export interface Budget {
  left: number;
}

export const newBudget = (limits: Limits): Budget => ({ left: limits.unzippedBytes });

/**
 * The unpacked bytes of a Deflate stream (`zip`) or a gzip file. The bytes are counted as they are made: throws UnreadableError as soon
 * as they pass the budget or the ratio, and for a stream that is damaged or cut short.
 */
export function inflateBounded(packed: Uint8Array, kind: "zip" | "gzip", budget: Budget, limits: Limits): Uint8Array {
  const parts: Uint8Array[] = [];
  let produced = 0;
  let isComplete = false;
  const take = (part: Uint8Array, isLast: boolean): void => {
    produced += part.length;
    budget.left -= part.length;
    if (budget.left < 0) {
      throw unreadableFile(
        "too-large",
        `The ${kind} file unpacks to more than ${withThousands(limits.unzippedBytes)} bytes.`,
        "Split the data.",
      );
    }
    if (produced > limits.ratioFreeBytes && produced > packed.length * limits.unzippedRatio) {
      throw unreadableFile(
        "suspicious-zip",
        `The ${kind} file unpacks to more than ${limits.unzippedRatio} times its size, which no data does.`,
        "Unpack it yourself and give the file inside, if you trust it.",
      );
    }
    // The decompressor may use its buffer again.
    if (part.length > 0) parts.push(part.slice());
    isComplete = isLast;
  };
  const stream = kind === "zip" ? new Inflate(take) : new Gunzip(take);
  let laterMembers = 0;
  if (stream instanceof Gunzip) stream.onmember = () => laterMembers++;
  try {
    for (let at = 0; at < packed.length; at += STEP_BYTES) {
      stream.push(packed.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= packed.length);
    }
  } catch (error) {
    if (error instanceof Error && error.name === "UnreadableError") throw error;
    throw damaged(`${kind} file`, "its packed bytes cannot be unpacked");
  }
  if (!isComplete) throw damaged(`${kind} file`, "its end is missing");
  const whole = joinBytes(parts);
  if (kind === "gzip" && laterMembers === 0) checkTrailer(packed, whole);
  return whole;
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
