const POINTS = ["N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"];
const WORDS = ["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"];

/** The nearest of the sixteen compass points to a bearing, for example `ENE`. */
export const compassPoint = (bearingDeg: number): string => POINTS[sector(bearingDeg, 16)]!;

/** The nearest of the eight compass directions to a bearing in words, for example `northeast`. */
export const compassWord = (bearingDeg: number): string => WORDS[sector(bearingDeg, 8)]!;

function sector(bearingDeg: number, count: number): number {
  const turn = ((bearingDeg % 360) + 360) % 360;
  return Math.round((turn / 360) * count) % count;
}
