const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = (value & 1) === 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value >>> 0;
});

/** CRC-32 of bytes as zip files keep it (ISO 3309; reflected polynomial EDB88320). */
export function crc32(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (let at = 0; at < bytes.length; at += 1) sum = TABLE[(sum ^ bytes[at]!) & 255]! ^ (sum >>> 8);
  return (sum ^ 0xffffffff) >>> 0;
}
