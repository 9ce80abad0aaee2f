/** The smallest of 1, 2, 4, 5 or 10 times a power of ten that is not below the value, so that half of it reads well; 1 for none. */
export function niceCeiling(value: number): number {
  if (!(value > 0) || !Number.isFinite(value)) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  const step = [1, 2, 4, 5].find((one) => one * power >= value);
  return (step ?? 10) * power;
}
