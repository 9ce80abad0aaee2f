/**
 * Vertical positions for labels so that none comes nearer to the next than `pitchMm`, each as near as that allows to where it
 * wants to be, all between `topMm` and `bottomMm` while they fit. Same order as given.
 *
 * Labels that touch are pooled into a block that sits at the mean of its members' wishes (pool adjacent violators), which is the
 * least-squares answer.
 */
export function spreadLabels(wantedMm: readonly number[], pitchMm: number, topMm: number, bottomMm: number): number[] {
  const order = wantedMm.map((_, at) => at).sort((a, b) => wantedMm[a]! - wantedMm[b]! || a - b);
  const blocks: { first: number; count: number; mean: number }[] = [];
  order.forEach((index, rank) => {
    blocks.push({ first: rank, count: 1, mean: wantedMm[index]! - rank * pitchMm });
    while (blocks.length > 1 && blocks.at(-2)!.mean > blocks.at(-1)!.mean) {
      const last = blocks.pop()!;
      const before = blocks.pop()!;
      const count = before.count + last.count;
      blocks.push({ first: before.first, count, mean: (before.mean * before.count + last.mean * last.count) / count });
    }
  });
  const highestStart = topMm;
  const lowestStart = bottomMm - (wantedMm.length - 1) * pitchMm;
  const placed = new Array<number>(wantedMm.length).fill(0);
  for (const block of blocks) {
    const start = Math.max(highestStart, Math.min(lowestStart, block.mean));
    for (let rank = block.first; rank < block.first + block.count; rank += 1) {
      placed[order[rank]!] = start + rank * pitchMm;
    }
  }
  return placed;
}
