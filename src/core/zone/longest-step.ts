/** Farthest move in meters within a zone; beyond it a crew packs up. Our policy. */
export const LONGEST_STEP_M = 300;
