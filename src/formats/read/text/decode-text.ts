import { withThousands } from "../../../core/units/with-thousands.ts";
import type { FeatureFault } from "../../geojson/feature-fault.ts";
import { placeInText } from "../../json/utf8-text.ts";
import { doubt } from "../converted.ts";
import type { Limits } from "../limits.ts";
import { pastLimit, unreadableFile } from "../unreadable-file.ts";
import { mixedText } from "./mixed-text.ts";
import { windows1252Text } from "./windows-1252.ts";

/** Text of a file, with how it was decoded. */
export interface DecodedText {
  readonly text: string;
  /** For example `UTF-8 with a byte-order mark`. */
  readonly encoding: string;
  /** A doubt where the encoding had to be guessed. */
  readonly findings: readonly FeatureFault[];
}

/** Bytes looked at for the pattern of UTF-16 without a mark. */
const SAMPLE_BYTES = 65_536;

/**
 * The text of bytes: by its byte-order mark, UTF-16 by its pattern of zero bytes, strict UTF-8, else Windows-1252 with a warning. The
 * mark is not part of the text. Throws UnreadableError for text past the limit and for UTF-16 that is none.
 */
export function decodeText(bytes: Uint8Array, limits: Limits): DecodedText {
  if (bytes.length > limits.textBytes) {
    throw pastLimit(
      `${withThousands(bytes.length)} bytes of text`,
      limits.textBytes,
      "Split the file, or save it as GeoPackage.",
    );
  }
  const wide = utf16Kind(bytes);
  if (wide !== null) return decodeUtf16(bytes, wide);
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const body = hasMark ? bytes.subarray(3) : bytes;
  try {
    const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(body);
    return { text, encoding: hasMark ? "UTF-8 with a byte-order mark" : "UTF-8", findings: [] };
  } catch {
    return decodeLegacy(body);
  }
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
  try {
    const text = new TextDecoder(`utf-16${kind}`, { fatal: true }).decode(bytes);
    return { text, encoding, findings: [] };
  } catch {
    throw unreadableFile("bad-utf16", `The text is not the ${encoding} it looks like.`, "Save the file as UTF-8.");
  }
}

/** Text that is not UTF-8: all of it Windows-1252, or UTF-8 with stray Windows-1252 bytes where most of its marks are UTF-8. */
function decodeLegacy(bytes: Uint8Array): DecodedText {
  const { text, strayBytes, firstStray, utf8Sequences } = mixedText(bytes);
  const { line } = placeInText(bytes, firstStray);
  if (utf8Sequences > strayBytes) {
    const reason = `The text is UTF-8 but for ${withThousands(strayBytes)} bytes, the first in line ${line}; these were read as Windows-1252.`;
    return { text, encoding: "UTF-8 with stray bytes", findings: [encodingDoubt(reason)] };
  }
  const reason = `The text is not UTF-8 (line ${line}) and was read as Windows-1252 (Latin-1).`;
  const whole = windows1252Text(bytes);
  return { text: whole, encoding: "Windows-1252", findings: [encodingDoubt(reason)] };
}

const encodingDoubt = (reason: string): FeatureFault =>
  doubt("encoding-guessed", reason, "Check names with accents; save the file as UTF-8 if they are wrong.");
