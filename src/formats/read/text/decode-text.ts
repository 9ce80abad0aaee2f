import { withThousands } from "../../../core/units/with-thousands.ts";
import type { FeatureFault } from "../../geojson/feature-fault.ts";
import { placeInText } from "../../json/utf8-text.ts";
import { doubt } from "../converted.ts";
import { unreadableFile } from "../unreadable-file.ts";
import { mixedText } from "./mixed-text.ts";
import { windows1252Text } from "./windows-1252.ts";

/** Text of a file, with how it is decoded. */
export interface DecodedText {
  /** For example `UTF-8 with a byte-order mark`. */
  readonly encoding: string;
  /** A doubt where the encoding had to be guessed. */
  readonly findings: readonly FeatureFault[];
  /** The text from its beginning, in pieces of about a megabyte, without the byte-order mark; can be asked for again. */
  pieces(): Generator<string, void, undefined>;
}

/** Bytes looked at for the pattern of UTF-16 without a mark. */
const SAMPLE_BYTES = 65_536;
const PIECE_BYTES = 1 << 20;

/**
 * The text of bytes: by its byte-order mark, UTF-16 by its pattern of zero bytes, strict UTF-8, else Windows-1252 with a warning. Never held
 * whole: longest is what fits into memory as bytes, not as one string. Throws UnreadableError for UTF-16 that is none.
 */
export function decodeText(bytes: Uint8Array): DecodedText {
  const wide = utf16Kind(bytes);
  if (wide !== null) return decodeUtf16(bytes, wide);
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const body = hasMark ? bytes.subarray(3) : bytes;
  const newDecoder = (): TextDecoder => new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  if (!isReadable(body, newDecoder)) return decodeLegacy(body);
  const encoding = hasMark ? "UTF-8 with a byte-order mark" : "UTF-8";
  return { encoding, findings: [], pieces: () => decodedPieces(body, newDecoder()) };
}

/** `le` or `be` for UTF-16 with a byte-order mark or recognized by its zero bytes; null for anything else. */
export function utf16Kind(bytes: Uint8Array): "le" | "be" | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "be";
  const length = Math.min(bytes.length, SAMPLE_BYTES) & ~1;
  if (length < 4) return null;
  const zeros = [0, 0];
  for (let at = 0; at < length; at += 1) if (bytes[at] === 0) zeros[at & 1]! += 1;
  // Western text has its high byte at zero nearly always and its low byte never: our rule of thumb.
  const half = length / 2;
  if (zeros[1]! > half * 0.6 && zeros[0]! === 0) return "le";
  if (zeros[0]! > half * 0.6 && zeros[1]! === 0) return "be";
  return null;
}

function decodeUtf16(bytes: Uint8Array, kind: "le" | "be"): DecodedText {
  const encoding = `UTF-16 ${kind.toUpperCase()}`;
  const newDecoder = (): TextDecoder => new TextDecoder(`utf-16${kind}`, { fatal: true });
  if (isReadable(bytes, newDecoder))
    return { encoding, findings: [], pieces: () => decodedPieces(bytes, newDecoder()) };
  throw unreadableFile("bad-utf16", `The text is not the ${encoding} it looks like.`, "Save the file as UTF-8.");
}

/** Text that is not UTF-8: all of it Windows-1252, or UTF-8 with stray Windows-1252 bytes where most of its marks are UTF-8. */
function decodeLegacy(bytes: Uint8Array): DecodedText {
  let strayBytes = 0;
  let utf8Sequences = 0;
  let firstStray = -1;
  let at = 0;
  for (const part of cutAtAscii(bytes)) {
    const mixed = mixedText(part);
    if (firstStray === -1 && mixed.firstStray !== -1) firstStray = at + mixed.firstStray;
    strayBytes += mixed.strayBytes;
    utf8Sequences += mixed.utf8Sequences;
    at += part.length;
  }
  const { line } = placeInText(bytes, firstStray);
  if (utf8Sequences > strayBytes) {
    const reason = `The text is UTF-8 but for ${withThousands(strayBytes)} bytes, the first in line ${line}; these were read as Windows-1252.`;
    const pieces = (): Generator<string, void> => mapped(cutAtAscii(bytes), (part) => mixedText(part).text);
    return { encoding: "UTF-8 with stray bytes", findings: [encodingDoubt(reason)], pieces };
  }
  const reason = `The text is not UTF-8 (line ${line}) and was read as Windows-1252 (Latin-1).`;
  const pieces = (): Generator<string, void> => mapped(cutAtAscii(bytes), windows1252Text);
  return { encoding: "Windows-1252", findings: [encodingDoubt(reason)], pieces };
}

function isReadable(bytes: Uint8Array, newDecoder: () => TextDecoder): boolean {
  try {
    for (const _ of decodedPieces(bytes, newDecoder()));
    return true;
  } catch {
    return false;
  }
}

function* decodedPieces(bytes: Uint8Array, decoder: TextDecoder): Generator<string, void, undefined> {
  for (let at = 0; at < bytes.length; at += PIECE_BYTES)
    yield decoder.decode(bytes.subarray(at, at + PIECE_BYTES), { stream: true });
  yield decoder.decode();
}

/** The bytes in pieces that end with an ASCII byte, which is never a part of a longer UTF-8 sequence. */
function* cutAtAscii(bytes: Uint8Array): Generator<Uint8Array, void, undefined> {
  for (let start = 0; start < bytes.length; ) {
    let end = Math.min(bytes.length, start + PIECE_BYTES);
    while (end < bytes.length && bytes[end - 1]! >= 0x80) end += 1;
    yield bytes.subarray(start, end);
    start = end;
  }
}

function* mapped(
  parts: Iterable<Uint8Array>,
  textOf: (part: Uint8Array) => string,
): Generator<string, void, undefined> {
  for (const part of parts) yield textOf(part);
}

const encodingDoubt = (reason: string): FeatureFault =>
  doubt("encoding-guessed", reason, "Check names with accents; save the file as UTF-8 if they are wrong.");
