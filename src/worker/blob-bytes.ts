import { withThousands } from "../core/units/with-thousands.ts";
import { RefusedInput } from "../formats/plan/refused-input.ts";
import { LIMITS } from "../formats/read/limits.ts";

/** Bytes asked of the browser at once. */
const PART_BYTES = 1 << 26;

/**
 * The bytes of a dropped file, read part by part; `onShare` is told how much of it there is. A file past the limit is refused before anything is
 * read. Throws RefusedInput for that, for a file that changed or vanished meanwhile, and where the browser has no memory for it.
 */
export async function blobBytes(
  blob: Blob,
  name: string,
  onShare: (share: number) => void = () => {},
  limitBytes: number = LIMITS.fileBytes,
): Promise<Uint8Array> {
  if (blob.size > limitBytes) {
    const reason = `${name} has ${withThousands(blob.size)} bytes; at most ${withThousands(limitBytes)} are read.`;
    throw new RefusedInput([reason, "Split it and give the parts."]);
  }
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(blob.size);
  } catch {
    const reason = `The browser has no memory for the ${withThousands(blob.size)} bytes of ${name}.`;
    throw new RefusedInput([reason, "Split it, or make the plan on the command line."]);
  }
  for (let at = 0; at < bytes.length; at += PART_BYTES) {
    onShare(at / bytes.length);
    try {
      bytes.set(new Uint8Array(await blob.slice(at, at + PART_BYTES).arrayBuffer()), at);
    } catch {
      throw new RefusedInput([`${name} could not be read; it may have changed meanwhile.`, "Drop it again."]);
    }
  }
  return bytes;
}
