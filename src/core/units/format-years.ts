const NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"] as const;

/** A small whole number in words, `11` from there on. */
export const numberWords = (count: number): string => NUMBERS[count] ?? String(count);

/** Rounding in sums of half years. */
const ROUNDING = 1e-9;

/** Whole years that something lasts, rounded down: what is promised is held. */
export const wholeYears = (years: number): number => Math.max(0, Math.floor(years + ROUNDING));

/** How long something lasts, for reading: `five years`, `one year`, `less than a year`; rounded down to whole years. */
export function formatYears(years: number): string {
  const whole = wholeYears(years);
  if (whole === 0) return "less than a year";
  return whole === 1 ? "one year" : `${numberWords(whole)} years`;
}
