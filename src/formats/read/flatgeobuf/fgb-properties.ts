import { shortestFloat } from "../shortest-float.ts";
import type { FgbColumn } from "./fgb-header.ts";

/**
 * Values of a feature by column, undefined where the feature leaves one out (feature.fbs: number of the column, then its value). Whole
 * numbers of eight bytes keep all digits; JSON columns become their value, or text where they are no JSON. Throws RangeError past the end.
 */
export function fgbProperties(bytes: Uint8Array | null, columns: readonly FgbColumn[]): unknown[] {
  const values: unknown[] = new Array(columns.length).fill(null);
  if (bytes === null) return values;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  const piece = (): Uint8Array => {
    const length = view.getUint32(at, true);
    if (at + 4 + length > view.byteLength) throw new RangeError("Value past the end of the feature");
    const start = at + 4;
    at = start + length;
    return bytes.subarray(start, at);
  };
  const take = <T>(size: number, read: (at: number) => T): T => {
    const value = read(at);
    at += size;
    return value;
  };
  while (at < view.byteLength) {
    const index = take(2, (from) => view.getUint16(from, true));
    const column = columns[index];
    if (column === undefined) throw new RangeError("Value of a column that is none");
    values[index] = readValue(column.type, view, take, piece);
  }
  return values;
}

function readValue(
  type: number,
  view: DataView,
  take: <T>(size: number, read: (at: number) => T) => T,
  piece: () => Uint8Array,
): unknown {
  switch (type) {
    case 0:
      return take(1, (at) => view.getInt8(at));
    case 1:
      return take(1, (at) => view.getUint8(at));
    case 2:
      return take(1, (at) => view.getUint8(at) !== 0);
    case 3:
      return take(2, (at) => view.getInt16(at, true));
    case 4:
      return take(2, (at) => view.getUint16(at, true));
    case 5:
      return take(4, (at) => view.getInt32(at, true));
    case 6:
      return take(4, (at) => view.getUint32(at, true));
    case 7:
      return take(8, (at) => view.getBigInt64(at, true));
    case 8:
      return take(8, (at) => view.getBigUint64(at, true));
    case 9:
      return take(4, (at) => shortestFloat(view.getFloat32(at, true)));
    case 10:
      return take(8, (at) => view.getFloat64(at, true));
    case 11:
    case 13:
      return new TextDecoder().decode(piece());
    case 12:
      return jsonOrText(new TextDecoder().decode(piece()));
    case 14:
      return piece();
    default:
      throw new RangeError(`Column type ${type} is not known`);
  }
}

function jsonOrText(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
