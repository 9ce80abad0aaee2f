const LETTERS = ["N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"];

/** The nearest of the sixteen compass points to a bearing in degrees clockwise from north, for example `ENE`. */
export function compassLetters(bearingDeg: number): string {
  const turn = ((bearingDeg % 360) + 360) % 360;
  return LETTERS[Math.round(turn / 22.5) % 16]!;
}
