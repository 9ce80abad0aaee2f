import { deflateSync, inflateSync } from "node:zlib";

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
/** Colors of an indexed picture: what one byte tells apart. */
const MOST_COLORS = 256;

/**
 * The same picture (PNG, ISO/IEC 15948) in at most 256 colors: its most frequent ones, and for each other the nearest of them. Flat
 * drawings lose only shades of their edges and become a third as large. Throws RangeError for anything but an eight-bit RGB picture
 * without interlace, which is what Chromium takes.
 */
export function palettePng(png: Buffer): Buffer {
  const { width, height, pixels } = decodeRgb(png);
  const counts = new Map<number, number>();
  for (let at = 0; at < pixels.length; at += 3) {
    const color = colorAt(pixels, at);
    counts.set(color, (counts.get(color) ?? 0) + 1);
  }
  const palette = [...counts]
    .sort(([one, oneCount], [other, otherCount]) => otherCount - oneCount || one - other)
    .slice(0, MOST_COLORS)
    .map(([color]) => color);
  const placeOf = new Map(palette.map((color, place) => [color, place]));
  const rows = Buffer.alloc(height * (width + 1));
  for (let row = 0, at = 0; row < height; row += 1) {
    for (let column = 0; column < width; column += 1, at += 3) {
      const color = colorAt(pixels, at);
      const place = placeOf.get(color) ?? nearest(palette, color);
      placeOf.set(color, place);
      rows[row * (width + 1) + 1 + column] = place;
    }
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 3, 0, 0, 0], 8);
  const table = Buffer.from(palette.flatMap((color) => [color >> 16, (color >> 8) & 255, color & 255]));
  return Buffer.concat([
    SIGNATURE,
    chunk("IHDR", header),
    chunk("PLTE", table),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

const colorAt = (pixels: Buffer, at: number): number => (pixels[at]! << 16) | (pixels[at + 1]! << 8) | pixels[at + 2]!;

function nearest(palette: readonly number[], color: number): number {
  let best = 0;
  let bestSquared = Number.POSITIVE_INFINITY;
  for (const [place, one] of palette.entries()) {
    const red = (one >> 16) - (color >> 16);
    const green = ((one >> 8) & 255) - ((color >> 8) & 255);
    const blue = (one & 255) - (color & 255);
    const squared = red * red + green * green + blue * blue;
    if (squared < bestSquared) {
      best = place;
      bestSquared = squared;
    }
  }
  return best;
}

function decodeRgb(png: Buffer): { width: number; height: number; pixels: Buffer } {
  const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)];
  const kind = png.subarray(24, 29);
  if (!kind.equals(Buffer.from([8, 2, 0, 0, 0])))
    throw new RangeError(`Expected an eight-bit RGB picture without interlace, got ${[...kind].join(" ")}`);
  const data: Buffer[] = [];
  for (let at = 8; at < png.length; ) {
    const length = png.readUInt32BE(at);
    if (png.toString("latin1", at + 4, at + 8) === "IDAT") data.push(png.subarray(at + 8, at + 8 + length));
    at += 12 + length;
  }
  const packed = inflateSync(Buffer.concat(data));
  const stride = width * 3;
  const pixels = Buffer.alloc(height * stride);
  for (let row = 0; row < height; row += 1) {
    const filter = packed[row * (stride + 1)]!;
    for (let column = 0; column < stride; column += 1) {
      const at = row * stride + column;
      const left = column >= 3 ? pixels[at - 3]! : 0;
      const up = row > 0 ? pixels[at - stride]! : 0;
      const upLeft = column >= 3 && row > 0 ? pixels[at - stride - 3]! : 0;
      pixels[at] = packed[row * (stride + 1) + 1 + column]! + predicted(filter, left, up, upLeft);
    }
  }
  return { width, height, pixels };
}

/** What a row's filter says a byte is like, from its neighbors (clause 9 of the standard). */
function predicted(filter: number, left: number, up: number, upLeft: number): number {
  switch (filter) {
    case 1:
      return left;
    case 2:
      return up;
    case 3:
      return (left + up) >> 1;
    case 4: {
      const guess = left + up - upLeft;
      const [byLeft, byUp, byUpLeft] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - upLeft)];
      if (byLeft <= byUp && byLeft <= byUpLeft) return left;
      return byUp <= byUpLeft ? up : upLeft;
    }
    default:
      return 0;
  }
}

function chunk(type: string, body: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type, "latin1"), body]);
  const framed = Buffer.alloc(named.length + 8);
  framed.writeUInt32BE(body.length, 0);
  named.copy(framed, 4);
  framed.writeUInt32BE(crc32(named), named.length + 4);
  return framed;
}

/** Cyclic redundancy check of the standard's annex D. */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
