import type { SpeciesTraits } from "../model/trees.ts";
import type { Crown } from "./crown.ts";

/**
 * The crown some years on: wider by the species' growth in radius and, at its base, lower by the droop of its low limbs.
 *
 * Its height stays as it is unless `withHeight`: a taller profile would raise the lower surface, while low limbs sink as they grow.
 * Height growth ends at the species' mature height. Negative years count as 0. Rates: species traits; droop is policy (standard).
 */
export function crownInYears(
  crown: Crown,
  traits: SpeciesTraits,
  years: number,
  droopMPerYear: number,
  withHeight = false,
): Crown {
  const span = Math.max(0, years);
  const widerM = traits.radiusGrowthMPerYear * span;
  const { northM, eastM, southM, westM } = crown.radii;
  const grownM = Math.min(crown.heightM + traits.heightGrowthMPerYear * span, traits.matureHeightM);
  return {
    heightM: withHeight ? Math.max(crown.heightM, grownM) : crown.heightM,
    crownBaseM: Math.max(0, crown.crownBaseM - droopMPerYear * span),
    radii: {
      northM: northM + widerM,
      eastM: eastM + widerM,
      southM: southM + widerM,
      westM: westM + widerM,
    },
    habit: crown.habit,
  };
}
