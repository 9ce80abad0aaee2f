declare module "wkt-parser" {
  /** The definition of WKT text of version 1 or 2, or of a PROJJSON value, in the shape proj4 takes. Throws for what it cannot read. */
  export default function wktParser(definition: string | object): unknown;
}
