import { zlibSync } from "fflate";
import type { Canvas } from "../symbols/pixels.ts";

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Eight bits a channel, truecolor with alpha, deflate, adaptive filters, no interlace (clause 11.2.1). */
const KIND = [8, 6, 0, 0, 0];

/** A picture as PNG (ISO/IEC 15948), RGBA with rows unfiltered; the same pixels give the same bytes. */
export function png({ width, height, data }: Canvas): Uint8Array {
  const rows = new Uint8Array(height * (width * 4 + 1));
  for (let row = 0; row < height; row += 1)
    rows.set(data.subarray(row * width * 4, (row + 1) * width * 4), row * (width * 4 + 1) + 1);
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  header.set(KIND, 8);
  const chunks = [chunk("IHDR", header), chunk("IDAT", zlibSync(rows, { level: 9 })), chunk("IEND", new Uint8Array())];
  const bytes = new Uint8Array(SIGNATURE.length + chunks.reduce((sum, one) => sum + one.length, 0));
  bytes.set(SIGNATURE);
  let at = SIGNATURE.length;
  for (const one of chunks) {
    bytes.set(one, at);
    at += one.length;
  }
  return bytes;
}

function chunk(type: string, body: Uint8Array): Uint8Array {
  const framed = new Uint8Array(body.length + 12);
  const view = new DataView(framed.buffer);
  view.setUint32(0, body.length);
  for (let at = 0; at < 4; at += 1) framed[4 + at] = type.charCodeAt(at);
  framed.set(body, 8);
  view.setUint32(body.length + 8, crc32(framed.subarray(4, body.length + 8)));
  return framed;
}

/** Cyclic redundancy check of the standard's annex D. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
