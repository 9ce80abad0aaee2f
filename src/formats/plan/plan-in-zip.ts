import { unzipSync } from "fflate";
import { REVISION_NAMES } from "./revision-names.ts";

/** Nothing else is taken out of a zip. */
const PLAN_FILES: ReadonlySet<string> = new Set(REVISION_NAMES);

/** Most bytes that are unpacked, all files together; our policy, what a browser tab holds without trouble. */
const MOST_BYTES = 1_000_000_000;

/**
 * The files of a plan saved as a zip; null when the zip holds no plan. Throws Error in a sentence when it cannot be read or would
 * unpack to more than 1 GB. Each file is unpacked into as much memory as the zip says and never more.
 */
export async function planInZip(zip: Blob): Promise<ReadonlyMap<string, Blob> | null> {
  let bytes = 0;
  let files: Record<string, Uint8Array>;
  try {
    files = unzipSync(new Uint8Array(await zip.arrayBuffer()), {
      filter: ({ name, originalSize }) => {
        if (!PLAN_FILES.has(name)) return false;
        bytes += originalSize;
        if (bytes > MOST_BYTES) throw new Error("it would unpack to more than 1 GB");
        return true;
      },
    });
  } catch (error) {
    throw new Error(`The zip cannot be read: ${error instanceof Error ? error.message : String(error)}.`);
  }
  const blobs = new Map(
    Object.entries(files).map(([name, content]) => [name, new Blob([content as Uint8Array<ArrayBuffer>])]),
  );
  return blobs.has("plan.json") ? blobs : null;
}
