/**
 * A UUID in the form of RFC 9562 version 8, made of a text alone: the same text, the same id, in every feed. 122 bits of four FNV-1a sums (Fowler,
 * Noll, Vo) from different beginnings; for telling events apart, not for secrets.
 */
export function stableUuid(text: string): string {
  const words = [0x811c9dc5, 0x050c5d1f, 0x9e3779b9, 0x85ebca6b].map((basis) => {
    let hash = basis;
    for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
    // FNV's last steps leave the high bits of short texts alike; one multiplication spreads them (Murmur's finalizer).
    hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
    return (hash ^ (hash >>> 13)) >>> 0;
  });
  const hex = words.map((word) => word.toString(16).padStart(8, "0")).join("");
  const variant = ((Number.parseInt(hex[16]!, 16) & 3) | 8).toString(16);
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-${variant}${hex.slice(17, 20)}-${hex.slice(20)}`;
}
