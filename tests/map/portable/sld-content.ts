/**
 * What may stand in the elements that our documents use, in order: `?` at most once, `*` any number, `+` at least one, `|` one of several.
 * The documents are SLD 1.1.0 (OGC 05-078r4), Symbology Encoding 1.1.0 (OGC 05-077r4) and Filter Encoding 1.1.0 (OGC 04-095). Typed from
 * `FeatureStyle.xsd` and a published mapping of the schemas; `StyledLayerDescriptor.xsd`, the text symbolizer and the filters partly from memory.
 * Elements that they allow and we never write are left out.
 */
export const SLD_CONTENT: Readonly<Record<string, readonly string[]>> = {
  StyledLayerDescriptor: ["NamedLayer*"],
  NamedLayer: ["se:Name", "se:Description?", "UserStyle*"],
  UserStyle: ["se:Name?", "se:Description?", "IsDefault?", "se:FeatureTypeStyle+"],
  "se:Description": ["se:Title?", "se:Abstract?"],
  "se:FeatureTypeStyle": ["se:Name?", "se:Description?", "se:Rule+"],
  "se:Rule": [
    "se:Name?",
    "se:Description?",
    "ogc:Filter?",
    "se:MinScaleDenominator?",
    "se:MaxScaleDenominator?",
    "se:PointSymbolizer|se:LineSymbolizer|se:PolygonSymbolizer|se:TextSymbolizer+",
  ],
  "se:PointSymbolizer": ["se:Graphic?"],
  "se:LineSymbolizer": ["se:Stroke?"],
  "se:PolygonSymbolizer": ["se:Fill?", "se:Stroke?"],
  "se:TextSymbolizer": ["se:Label?", "se:Font?", "se:LabelPlacement?", "se:Halo?", "se:Fill?"],
  "se:Graphic": ["se:ExternalGraphic|se:Mark*", "se:Opacity?", "se:Size?", "se:Rotation?"],
  "se:ExternalGraphic": ["se:OnlineResource", "se:Format"],
  "se:OnlineResource": [],
  "se:Mark": ["se:WellKnownName?", "se:Fill?", "se:Stroke?"],
  "se:Fill": ["se:GraphicFill?", "se:SvgParameter*"],
  "se:GraphicFill": ["se:Graphic"],
  "se:Stroke": ["se:SvgParameter*"],
  "se:Font": ["se:SvgParameter*"],
  "se:LabelPlacement": ["se:PointPlacement"],
  "se:PointPlacement": ["se:AnchorPoint?", "se:Displacement?", "se:Rotation?"],
  "se:AnchorPoint": ["se:AnchorPointX", "se:AnchorPointY"],
  "se:Displacement": ["se:DisplacementX", "se:DisplacementY"],
  "se:Halo": ["se:Radius?", "se:Fill?"],
  "ogc:Filter": ["ogc:And|ogc:Or|ogc:Not|ogc:PropertyIsEqualTo|ogc:PropertyIsNotEqualTo|ogc:PropertyIsNull"],
  "ogc:And": ["ogc:And|ogc:Or|ogc:Not|ogc:PropertyIsEqualTo|ogc:PropertyIsNotEqualTo|ogc:PropertyIsNull+"],
  "ogc:Or": ["ogc:And|ogc:Or|ogc:Not|ogc:PropertyIsEqualTo|ogc:PropertyIsNotEqualTo|ogc:PropertyIsNull+"],
  "ogc:Not": ["ogc:And|ogc:Or|ogc:Not|ogc:PropertyIsEqualTo|ogc:PropertyIsNotEqualTo|ogc:PropertyIsNull"],
  "ogc:PropertyIsEqualTo": ["ogc:PropertyName", "ogc:Literal"],
  "ogc:PropertyIsNotEqualTo": ["ogc:PropertyName", "ogc:Literal"],
  "ogc:PropertyIsNull": ["ogc:PropertyName"],
  "ogc:Mul": ["ogc:PropertyName", "ogc:Literal"],
};

/** Elements of text in which expressions may stand (`ParameterValueType`, mixed). */
export const PARAMETERS: ReadonlySet<string> = new Set([
  "se:Label",
  "se:Size",
  "se:Rotation",
  "se:Opacity",
  "se:Radius",
  "se:SvgParameter",
  "se:AnchorPointX",
  "se:AnchorPointY",
  "se:DisplacementX",
  "se:DisplacementY",
]);
