/** A row of a table by speed. */
interface SpeedRow {
  readonly speedKmh: number;
}

/**
 * A column of a table at a speed: between two rows straight between them, below the first and above the last that row's own. Rows ascend.
 * Interpolation is our choice: the tables go by 5 mph.
 */
export function rowAtSpeed<R extends SpeedRow>(
  rows: readonly R[],
  speedKmh: number,
  column: (row: R) => number,
): number {
  const above = rows.findIndex((row) => row.speedKmh >= speedKmh - SAME_KMH);
  if (above < 0) return column(rows[rows.length - 1]!);
  const high = rows[above]!;
  if (above === 0 || high.speedKmh - speedKmh <= SAME_KMH) return column(high);
  const low = rows[above - 1]!;
  const share = (speedKmh - low.speedKmh) / (high.speedKmh - low.speedKmh);
  return column(low) + share * (column(high) - column(low));
}

/** 40 km/h and 25 mph (40.2336 km/h) are two speeds; a double's last bit is not. */
const SAME_KMH = 1e-6;
