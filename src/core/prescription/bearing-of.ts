import { RAY_STEP_DEG } from "../model/conflict.ts";

/** Bearing in degrees of the middle of a removal ray. */
export const bearingOf = (ray: number): number => (ray + 0.5) * RAY_STEP_DEG;
