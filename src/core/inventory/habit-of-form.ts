import type { Form, Habit } from "../model/terms.ts";

/**
 * The crown's profile of a plant of a form, where `ofSpecies` is what its species or type usually has.
 *
 * A hedge is a column: cut upright, as wide at the ground as above. A shrub is widest at the ground, a dome, where its species would be an
 * ellipsoid, which leaves the ground free. Our policy. Dead trees keep the profile of their species: what is left of the crown is inside it.
 */
export function habitOfForm(form: Form, ofSpecies: Habit): Habit {
  if (form === "hedge") return "column";
  if (form === "shrub") return ofSpecies === "ellipsoid" ? "dome" : ofSpecies;
  return ofSpecies;
}
