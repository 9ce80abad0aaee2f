/** A file size for reading, in decimal units: `640 B`, `219 kB`, `1.2 MB`. */
export function readableBytes(bytes: number): string {
  if (bytes < 1000) return `${bytes} B`;
  if (bytes < 999_500) return `${Math.round(bytes / 1000)} kB`;
  return `${Math.round(bytes / 100_000) / 10} MB`;
}
