/**
 * Numbers kept of what is taken of a ray, or of one part of a ray that an edge crosses steeply; one entry after another in a typed array. They depend
 * on neither heights nor bands of heights, so they are worked out once for all.
 */
export const ENTRY_NUMBERS = 8;

/** Places of an entry's numbers: where it begins and ends in meters from the trunk's axis. */
export const FROM_M = 0;
export const TO_M = 1;
/** Where it begins as a share of the ray's radius; more than 1 where nothing is taken. */
export const FROM_SHARE = 2;
/** Squared radius of the ray, of a part its share of it: what the whole of it holds in units of the integral of f^2. */
export const WEIGHT = 3;
/** Relative heights between which the crown is wider than `FROM_SHARE`, and the integral of f^2 below each of them. */
export const LOW_U = 4;
export const HIGH_U = 5;
export const BELOW_LOW = 6;
export const BELOW_HIGH = 7;

/** A `FROM_SHARE` that no crown reaches. */
export const NOTHING_TAKEN = 2;
