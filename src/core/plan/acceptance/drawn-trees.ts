/**
 * Ids in the order in which they are drawn by lot. The lot hangs on plan, zone and id alone, so that nobody can choose and everybody can draw it again: each id gets
 * a number from the text `plan LF zone LF id`, the smallest is drawn first. 53 bits by two multiplicative hashes with a final mix; not meant against
 * somebody who may invent ids.
 */
export function drawnTrees(planId: string, zoneId: string, treeIds: readonly string[]): string[] {
  return [...new Set(treeIds)]
    .map((id) => ({ id, lot: lotOf(`${planId}\n${zoneId}\n${id}`) }))
    .sort((a, b) => a.lot - b.lot || (a.id < b.id ? -1 : 1))
    .map(({ id }) => id);
}

function lotOf(text: string): number {
  let low = 0xdeadbeef;
  let high = 0x41c6ce57;
  for (let at = 0; at < text.length; at += 1) {
    const unit = text.charCodeAt(at);
    low = Math.imul(low ^ unit, 2654435761);
    high = Math.imul(high ^ unit, 1597334677);
  }
  // The final mix of MurmurHash3 (Appleby), so that texts that differ in one unit lie far apart.
  low = mixed(low ^ high);
  high = mixed(high ^ low);
  return (high >>> 11) * 0x1_0000_0000 + (low >>> 0);
}

function mixed(value: number): number {
  let hash = Math.imul(value ^ (value >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return hash ^ (hash >>> 16);
}
