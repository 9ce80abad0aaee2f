<?xml version="1.0" encoding="UTF-8"?>
<!-- Made from tokens.json by "npm run styles"; edit that. -->
<StyledLayerDescriptor
  version="1.1.0"
  xmlns="http://www.opengis.net/sld"
  xmlns:se="http://www.opengis.net/se"
  xmlns:ogc="http://www.opengis.net/ogc"
  xmlns:xlink="http://www.w3.org/1999/xlink"
  xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
  xsi:schemaLocation="http://www.opengis.net/sld http://schemas.opengis.net/sld/1.1.0/StyledLayerDescriptor.xsd"
>
  <NamedLayer>
    <se:Name>sight</se:Name>
    <UserStyle>
      <se:Name>boughline-sight</se:Name>
      <se:Description>
        <se:Title>where drivers must see</se:Title>
      </se:Description>
      <IsDefault>1</IsDefault>
      <se:FeatureTypeStyle>
        <se:Rule>
          <se:Name>area</se:Name>
          <se:Description>
            <se:Title>where drivers must see</se:Title>
          </se:Description>
          <ogc:Filter>
            <ogc:PropertyIsNotEqualTo>
              <ogc:PropertyName>part</ogc:PropertyName>
              <ogc:Literal>blind</ogc:Literal>
            </ogc:PropertyIsNotEqualTo>
          </ogc:Filter>
          <se:MaxScaleDenominator>5000</se:MaxScaleDenominator>
          <se:PolygonSymbolizer>
            <se:Fill>
              <se:SvgParameter name="fill">#8d968f</se:SvgParameter>
              <se:SvgParameter name="fill-opacity">0.08</se:SvgParameter>
            </se:Fill>
            <se:Stroke>
              <se:SvgParameter name="stroke">#78817a</se:SvgParameter>
              <se:SvgParameter name="stroke-width">0.8</se:SvgParameter>
              <se:SvgParameter name="stroke-dasharray">6 3</se:SvgParameter>
            </se:Stroke>
          </se:PolygonSymbolizer>
        </se:Rule>
        <se:Rule>
          <se:Name>blind</se:Name>
          <se:Description>
            <se:Title>ground hidden by trees</se:Title>
          </se:Description>
          <ogc:Filter>
            <ogc:PropertyIsEqualTo>
              <ogc:PropertyName>part</ogc:PropertyName>
              <ogc:Literal>blind</ogc:Literal>
            </ogc:PropertyIsEqualTo>
          </ogc:Filter>
          <se:MaxScaleDenominator>5000</se:MaxScaleDenominator>
          <se:PolygonSymbolizer>
            <se:Fill>
              <se:SvgParameter name="fill">#4f5a68</se:SvgParameter>
              <se:SvgParameter name="fill-opacity">0.3</se:SvgParameter>
            </se:Fill>
          </se:PolygonSymbolizer>
        </se:Rule>
      </se:FeatureTypeStyle>
    </UserStyle>
  </NamedLayer>
</StyledLayerDescriptor>
