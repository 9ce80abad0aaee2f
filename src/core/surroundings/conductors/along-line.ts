/**
 * A height at every vertex of a line from those that are known: evenly along the line between two known ones, beyond the last known one the
 * same; null when none is known. Lengths in meters a piece between two vertices.
 */
export function alongLine(known: readonly (number | null)[], lengthsM: readonly number[]): Float64Array | null {
  const out = new Float64Array(known.length);
  let before = -1;
  for (let at = 0; at < known.length; at += 1) {
    const value = known[at];
    if (value === null || value === undefined) continue;
    const from = before < 0 ? value : out[before]!;
    let wholeM = 0;
    for (let piece = Math.max(0, before); piece < at; piece += 1) wholeM += lengthsM[piece]!;
    let doneM = 0;
    for (let vertex = Math.max(0, before); vertex < at; vertex += 1) {
      if (vertex > before) out[vertex] = from + (value - from) * (wholeM > 0 ? doneM / wholeM : 0);
      doneM += lengthsM[vertex]!;
    }
    out[at] = value;
    before = at;
  }
  if (before < 0) return null;
  out.fill(out[before]!, before + 1);
  return out;
}
