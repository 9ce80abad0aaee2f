import type { IncomingMessage } from "node:http";
import { unzipSync } from "fflate";
import { withThousands } from "../../core/units/with-thousands.ts";
import { REVISION_NAMES } from "../../formats/plan/revision-names.ts";

/** Most bytes of a request's body, and of the files in it, unpacked. Our policy: several times the largest plan that a page can hold. */
export const MOST_BODY_BYTES = 500_000_000;
export const MOST_FILE_BYTES = 1_500_000_000;

/** The files of a request, or why it is refused and the status that says so. */
export type BodyFiles =
  | { readonly files: ReadonlyMap<string, Uint8Array> }
  | { readonly refused: string; readonly status: 400 | 413 };

const NAMES: ReadonlySet<string> = new Set(REVISION_NAMES);

/** Reads a zip of a revision's files from a request. Stops reading at the limit; a file of any other name refuses the whole. */
export async function filesInBody(request: IncomingMessage, mostBytes: number = MOST_BODY_BYTES): Promise<BodyFiles> {
  if (Number(request.headers["content-length"] ?? 0) > mostBytes) return tooLarge(mostBytes);
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    length += chunk.length;
    if (length > mostBytes) return tooLarge(mostBytes);
    chunks.push(chunk);
  }
  const names = new Set<string>();
  let unpacked = 0;
  let refused: string | null = null;
  try {
    const files = unzipSync(Buffer.concat(chunks), {
      filter: ({ name, originalSize }) => {
        unpacked += originalSize;
        if (!NAMES.has(name)) refused ??= `A revision has no file ${JSON.stringify(name.slice(0, 80))}.`;
        else if (names.has(name)) refused ??= `The zip has ${name} twice.`;
        else if (unpacked > MOST_FILE_BYTES)
          refused ??= `The zip unpacks to more than ${withThousands(MOST_FILE_BYTES)} bytes.`;
        names.add(name);
        return refused === null;
      },
    });
    return refused === null ? { files: new Map(Object.entries(files)) } : { refused, status: 400 };
  } catch {
    return { refused: "The zip cannot be read.", status: 400 };
  }
}

const tooLarge = (mostBytes: number): BodyFiles => ({
  refused: `More than ${withThousands(mostBytes)} bytes. Save the plan as a zip instead.`,
  status: 413,
});
