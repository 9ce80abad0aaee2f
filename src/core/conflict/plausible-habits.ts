import { type Form, HABITS, type Habit } from "../model/terms.ts";

/** Profiles that a plant of a form can have at all; our policy. Of trees and shrubs every one. */
const OF_FORM: Readonly<Partial<Record<Form, readonly Habit[]>>> = {
  conifer: ["cone", "paraboloid", "ellipsoid", "dome", "column"],
  palm: ["dome", "ellipsoid", "vase"],
  hedge: ["column", "dome"],
};

/** The profiles that a conflict of a plant of a form must hold for to be sure. */
export const plausibleHabits = (form: Form): readonly Habit[] => OF_FORM[form] ?? HABITS;
