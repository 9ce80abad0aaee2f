import type { FeatureFault } from "../../geojson/feature-fault.ts";
import { doubt } from "../converted.ts";
import { windows1252Text } from "../text/windows-1252.ts";

/** How text in a .dbf is decoded. */
export interface DbfText {
  readonly encoding: string;
  readonly findings: readonly FeatureFault[];
  decode(bytes: Uint8Array): string;
}

/** Where the text stands in the file. */
export interface DbfLayout {
  readonly headerBytes: number;
  readonly rowBytes: number;
  readonly rows: number;
  readonly textFields: readonly { readonly at: number; readonly length: number }[];
}

/** Language drivers of the header's byte 29 that name a Windows code page (dBASE documentation; from memory). */
const LANGUAGE_DRIVERS: ReadonlyMap<number, string> = new Map([
  [0x03, "windows-1252"],
  [0x57, "windows-1252"],
  [0xc8, "windows-1250"],
  [0xc9, "windows-1251"],
  [0xca, "windows-1254"],
  [0xcb, "windows-1253"],
  [0xcc, "windows-1257"],
  [0x13, "shift_jis"],
  [0x4d, "gbk"],
  [0x4e, "euc-kr"],
  [0x4f, "big5"],
  [0x65, "ibm866"],
]);

/**
 * The decoder of a .dbf's text: the .cpg file's encoding, else UTF-8 where all text is, else the header's language driver, else
 * Windows-1252 with a warning. A .cpg that promises UTF-8 and does not keep it is a warning too.
 */
export function dbfText(bytes: Uint8Array, cpg: Uint8Array | null, layout: DbfLayout): DbfText {
  const named = cpg === null ? null : encodingName(new TextDecoder("latin1").decode(cpg.subarray(0, 64)));
  const kinds = textKinds(bytes, layout);
  if (named !== null && named !== "utf-8") return textIn(named, []);
  if (kinds === "utf-8" || kinds === "ascii") return textIn("utf-8", []);
  const driver = named === null ? LANGUAGE_DRIVERS.get(bytes[29]!) : undefined;
  if (driver !== undefined) return textIn(driver, []);
  const reason =
    named === "utf-8"
      ? "The .cpg file says UTF-8, but the text is not; it was read as Windows-1252 (Latin-1)."
      : "Nothing says how the text is encoded and it is not UTF-8; it was read as Windows-1252 (Latin-1).";
  return textIn("windows-1252", [
    doubt("encoding-guessed", reason, "Check names with accents; zip a .cpg file that names the encoding."),
  ]);
}

function textIn(encoding: string, findings: readonly FeatureFault[]): DbfText {
  const decoder = new TextDecoder(encoding);
  const decode = encoding === "windows-1252" ? windows1252Text : (bytes: Uint8Array) => decoder.decode(bytes);
  const shown = encoding === "utf-8" ? "UTF-8" : encoding === "windows-1252" ? "Windows-1252" : encoding;
  return { encoding: shown, findings, decode };
}

/** What a .cpg names, as TextDecoder knows it: `UTF-8`, `65001`, `1252`, `ANSI 1252`, `88591`, `ISO-8859-1` ...; null for anything else. */
function encodingName(text: string): string | null {
  const name = text.trim().toLowerCase();
  const digits = [...name].filter((letter) => letter >= "0" && letter <= "9").join("");
  const isWindows = /^125\d$/.test(digits);
  const isLatin = /^8859\d{1,2}$/.test(digits);
  const label =
    digits === "65001" ? "utf-8" : isWindows ? `windows-${digits}` : isLatin ? `iso-8859-${digits.slice(4)}` : name;
  try {
    return new TextDecoder(label).encoding;
  } catch {
    return null;
  }
}

function textKinds(
  bytes: Uint8Array,
  { headerBytes, rowBytes, rows, textFields }: DbfLayout,
): "ascii" | "utf-8" | "other" {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let kind: "ascii" | "utf-8" = "ascii";
  for (let row = 0; row < rows; row += 1) {
    if (isAscii(bytes, headerBytes + row * rowBytes, rowBytes)) continue;
    for (const { at, length } of textFields) {
      const start = headerBytes + row * rowBytes + at;
      const field = bytes.subarray(start, start + length);
      try {
        decoder.decode(withoutCutCharacter(field));
        kind = "utf-8";
      } catch {
        return "other";
      }
    }
  }
  return kind;
}

function isAscii(bytes: Uint8Array, start: number, length: number): boolean {
  for (let at = start; at < start + length; at += 1) if (bytes[at]! >= 0x80) return false;
  return true;
}

/** A field as wide as its text may end inside a character; those bytes do not count against UTF-8. */
function withoutCutCharacter(field: Uint8Array): Uint8Array {
  let end = field.length;
  while (end > 0 && field.length - end < 3 && (field[end - 1]! & 0xc0) === 0x80) end -= 1;
  const lead = field[end - 1] ?? 0;
  const wanted = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc0 ? 2 : 1;
  return field.length - end + 1 < wanted ? field.subarray(0, end - 1) : field;
}
