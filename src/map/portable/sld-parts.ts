/** Namespaces of an SLD 1.1 document, in which symbols are written in Symbology Encoding 1.1 and filters in Filter Encoding 1.1. */
const NAMESPACES = [
  'xmlns="http://www.opengis.net/sld"',
  'xmlns:se="http://www.opengis.net/se"',
  'xmlns:ogc="http://www.opengis.net/ogc"',
  'xmlns:xlink="http://www.w3.org/1999/xlink"',
  'xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"',
  'xsi:schemaLocation="http://www.opengis.net/sld http://schemas.opengis.net/sld/1.1.0/StyledLayerDescriptor.xsd"',
].join("\n  ");

/** Sizes are meters on the ground (SE 11.1); without it they are pixels of 0.28 mm. */
export const IN_METERS = ' uom="http://www.opengeospatial.org/se/units/metre"';

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

const indented = (xml: string): string => xml.replace(/^(?=.)/gm, "  ");

/** An element around others, one a line; empty children fall away. */
export function element(name: string, attributes: string, children: readonly string[]): string {
  const inner = children.filter((child) => child !== "");
  const [tag] = name.split(" ");
  return `<${name}${attributes}>\n${indented(inner.join("\n"))}\n</${tag}>`;
}

/** An element around text. */
export const leaf = (name: string, text: string | number, attributes = ""): string =>
  `<${name}${attributes}>${escaped(String(text))}</${name}>`;

/** A whole document that styles one layer. */
export function sldDocument(layer: string, title: string, rules: readonly string[]): string {
  const style = element("UserStyle", "", [
    leaf("se:Name", `boughline-${layer}`),
    element("se:Description", "", [leaf("se:Title", title)]),
    leaf("IsDefault", 1),
    element("se:FeatureTypeStyle", "", rules),
  ]);
  const root = element("StyledLayerDescriptor", `\n  version="1.1.0"\n  ${NAMESPACES}\n`, [
    element("NamedLayer", "", [leaf("se:Name", layer), style]),
  ]);
  return `<?xml version="1.0" encoding="UTF-8"?>\n<!-- Made from tokens.json by "npm run styles"; edit that. -->\n${root}\n`;
}

export interface Rule {
  readonly name: string;
  readonly title: string;
  readonly filter?: string;
  /** Shown at scales of 1 to this and larger numbers (smaller scales). */
  readonly fromScale?: number;
  /** Shown at scales up to 1 to this number, which is left out. */
  readonly belowScale?: number;
  readonly symbolizers: readonly string[];
}

export const rule = ({ name, title, filter, fromScale, belowScale, symbolizers }: Rule): string =>
  element("se:Rule", "", [
    leaf("se:Name", name),
    element("se:Description", "", [leaf("se:Title", title)]),
    filter === undefined ? "" : element("ogc:Filter", "", [filter]),
    fromScale === undefined ? "" : leaf("se:MinScaleDenominator", fromScale),
    belowScale === undefined ? "" : leaf("se:MaxScaleDenominator", belowScale),
    ...symbolizers,
  ]);

export const property = (name: string): string => leaf("ogc:PropertyName", name);
export const isEqual = (name: string, value: string): string =>
  element("ogc:PropertyIsEqualTo", "", [property(name), leaf("ogc:Literal", value)]);
export const isOther = (name: string, value: string): string =>
  element("ogc:PropertyIsNotEqualTo", "", [property(name), leaf("ogc:Literal", value)]);
export const isNull = (name: string): string => element("ogc:PropertyIsNull", "", [property(name)]);
/** All of two or more conditions; one stands alone. */
export const all = (...conditions: readonly string[]): string =>
  conditions.length === 1 ? conditions[0]! : element("ogc:And", "", conditions);
export const any = (...conditions: readonly string[]): string =>
  conditions.length === 1 ? conditions[0]! : element("ogc:Or", "", conditions);

export const fill = (color: string, opacity = 1): string =>
  element("se:Fill", "", [
    leaf("se:SvgParameter", color, ' name="fill"'),
    opacity === 1 ? "" : leaf("se:SvgParameter", opacity, ' name="fill-opacity"'),
  ]);

export const stroke = (color: string, widthPx: number, more: Readonly<Record<string, string | number>> = {}): string =>
  element("se:Stroke", "", [
    leaf("se:SvgParameter", color, ' name="stroke"'),
    leaf("se:SvgParameter", widthPx, ' name="stroke-width"'),
    ...Object.entries(more).map(([name, value]) => leaf("se:SvgParameter", value, ` name="${name}"`)),
  ]);

/** A shape by its well-known name. */
export const mark = (name: string, inside: string, outline: string): string =>
  element("se:Mark", "", [leaf("se:WellKnownName", name), inside, outline]);

/** A picture beside the document. A reader that cannot have it takes what stands after it in the same graphic. */
export const picture = (file: string): string =>
  element("se:ExternalGraphic", "", [
    `<se:OnlineResource xlink:type="simple" xlink:href="${escaped(file)}"/>`,
    leaf("se:Format", "image/svg+xml"),
  ]);

export const point = (graphic: readonly string[], attributes = ""): string =>
  element("se:PointSymbolizer", attributes, [element("se:Graphic", "", graphic)]);
export const line = (outline: string): string => element("se:LineSymbolizer", "", [outline]);
export const area = (inside: string, outline: string): string => element("se:PolygonSymbolizer", "", [inside, outline]);

/** Text beside a point; `label` is markup, so that members can stand in it. */
export const text = (label: string, sizePx: number, color: string, ground: string): string =>
  element("se:TextSymbolizer", "", [
    `<se:Label>${label}</se:Label>`,
    element("se:Font", "", [
      leaf("se:SvgParameter", "Source Sans 3", ' name="font-family"'),
      leaf("se:SvgParameter", sizePx, ' name="font-size"'),
    ]),
    element("se:LabelPlacement", "", [
      element("se:PointPlacement", "", [
        element("se:AnchorPoint", "", [leaf("se:AnchorPointX", 0), leaf("se:AnchorPointY", 0.5)]),
        element("se:Displacement", "", [leaf("se:DisplacementX", 12), leaf("se:DisplacementY", 0)]),
      ]),
    ]),
    element("se:Halo", "", [leaf("se:Radius", 1.5), fill(ground)]),
    fill(color),
  ]);
