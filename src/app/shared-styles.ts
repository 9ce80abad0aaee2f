/** Controls and type that every component of the page shares; colors come from the tokens on the root. */
export { controlStyles as sharedStyles } from "../map/zoning/control-styles.ts";
