/** The decimal a 4-byte number was most likely written as: 0.1 rather than 0.10000000149011612; it rounds to the same 4 bytes. */
export function shortestFloat(value: number): number {
  if (!Number.isFinite(value)) return value;
  for (let digits = 6; digits <= 9; digits += 1) {
    const short = Number(value.toPrecision(digits));
    if (Math.fround(short) === value) return short;
  }
  return value;
}
