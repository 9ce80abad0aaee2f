import { ownMember } from "../json/own-member.ts";

/**
 * The name in a legacy `crs` member (GeoJSON 2008 section 3, dropped by RFC 7946): text, null for an absent or null member, and
 * undefined where it names nothing usable, such as a link. A link is never followed.
 */
export function crsMemberName(root: unknown): string | null | undefined {
  const crs = ownMember(root, "crs");
  if (crs === undefined || crs === null) return null;
  if (typeof crs === "string") return crs;
  const properties = ownMember(crs, "properties");
  const type = ownMember(crs, "type");
  if (type === "name") {
    const name = ownMember(properties, "name");
    return typeof name === "string" ? name : undefined;
  }
  const code = ownMember(properties, "code");
  if (
    typeof type === "string" &&
    type.toUpperCase() === "EPSG" &&
    (typeof code === "number" || typeof code === "string")
  ) {
    return `EPSG:${code}`;
  }
  return undefined;
}
