import { URGENCIES, ZONE_STATES, type ZoneState } from "../../core/model/terms.ts";
import { type Theme, TOKENS } from "../tokens.ts";
import { DEFAULT_WORDS } from "../words.ts";
import {
  area,
  element,
  fill,
  isEqual,
  isOther,
  leaf,
  line,
  mark,
  picture,
  point,
  property,
  rule,
  sldDocument,
  stroke,
  text,
} from "./sld-parts.ts";

const CLOSE_BELOW_SCALE = 5_000;

/** Name of the file with the tile of a zone state's pattern. */
export const patternFile = (state: ZoneState): string => `zone-${state}.svg`;

/** Shapes for readers that cannot have the tiles; the last two are names that some servers add to the standard ones. */
const PLAIN_PATTERNS: Readonly<Record<Exclude<ZoneState, "done">, string>> = {
  draft: "circle",
  issued: "shape://slash",
  "under-way": "shape://times",
};

/** The style of `conflicts.geojson`: the encroaching parts, their outline broken where a conflict is not confirmed. */
export function conflictsSld(theme: Theme): string {
  const part = (dash: Readonly<Record<string, string>>) =>
    area(fill(theme.drawing.removed, 0.85), stroke(theme.ink, TOKENS.line.crownPx, dash));
  return sldDocument("conflicts", DEFAULT_WORDS.legend.encroachment, [
    rule({
      name: "confirmed",
      title: `${DEFAULT_WORDS.legend.encroachment}, ${DEFAULT_WORDS.certainty.confirmed}`,
      filter: isEqual("certainty", "confirmed"),
      belowScale: CLOSE_BELOW_SCALE,
      symbolizers: [part({})],
    }),
    rule({
      name: "unsure",
      title: `${DEFAULT_WORDS.legend.encroachment}, ${DEFAULT_WORDS.certainty.probable} or possible`,
      filter: isOther("certainty", "confirmed"),
      belowScale: CLOSE_BELOW_SCALE,
      symbolizers: [part({ "stroke-dasharray": "4 3" })],
    }),
  ]);
}

/** The style of `sight.geojson`: where drivers must see, and the ground that trees hide in it. */
export function sightSld(theme: Theme): string {
  const edge = stroke(theme.sight.edge, TOKENS.line.sightPx, { "stroke-dasharray": "6 3" });
  return sldDocument("sight", DEFAULT_WORDS.legend.sight, [
    rule({
      name: "area",
      title: DEFAULT_WORDS.legend.sight,
      filter: isOther("part", "blind"),
      belowScale: CLOSE_BELOW_SCALE,
      symbolizers: [area(fill(theme.sight.fill, 0.08), edge)],
    }),
    rule({
      name: "blind",
      title: DEFAULT_WORDS.legend.blind,
      filter: isEqual("part", "blind"),
      belowScale: CLOSE_BELOW_SCALE,
      symbolizers: [area(fill(theme.sight.blind, 0.3), "")],
    }),
  ]);
}

/** The style of `zones.geojson`: the pattern says the state, the outline's weight how soon. */
export function zonesSld(theme: Theme): string {
  const patterned = (state: ZoneState): string => {
    if (state === "done") return area("", "");
    const { tilePx } = TOKENS.zonePattern;
    const plain = mark(PLAIN_PATTERNS[state], fill(theme.zone, 0.3), stroke(theme.zone, 0.6));
    const graphic = element("se:Graphic", "", [picture(patternFile(state)), plain, leaf("se:Size", tilePx)]);
    return area(element("se:Fill", "", [element("se:GraphicFill", "", [graphic])]), "");
  };
  return sldDocument("zones", DEFAULT_WORDS.legend.zones, [
    ...ZONE_STATES.filter((state) => state !== "done").map((state) =>
      rule({
        name: state,
        title: DEFAULT_WORDS.zoneState[state],
        filter: isEqual("state", state),
        belowScale: 50_000,
        symbolizers: [patterned(state)],
      }),
    ),
    ...URGENCIES.map((urgency) =>
      rule({
        name: `due-${urgency}`,
        title: `outline: ${DEFAULT_WORDS.urgency[urgency]}`,
        filter: isEqual("urgency", urgency),
        symbolizers: [line(stroke(theme.zone, TOKENS.line.zonePx[urgency]))],
      }),
    ),
    rule({
      name: "done",
      title: DEFAULT_WORDS.zoneState.done,
      filter: isEqual("state", "done"),
      symbolizers: [
        point([
          picture("zone-tab.svg"),
          mark("triangle", fill(theme.zone), stroke(theme.zone, 0.5)),
          leaf("se:Size", 12),
        ]),
      ],
    }),
    rule({
      name: "names",
      title: "name",
      belowScale: CLOSE_BELOW_SCALE,
      symbolizers: [text(property("name"), TOKENS.type.mapPx, theme.ink, theme.ground)],
    }),
  ]);
}

/**
 * The style of `surroundings.geojson`: wires, buildings, ways by their lines or edges, and signs and signals as dots. Which geometry a
 * feature has is not asked, since its name differs from one reader to the next.
 */
export function surroundingsSld(theme: Theme): string {
  const { surroundings } = theme;
  const isLayer = (layer: string) => isEqual("layer", layer);
  const small = (name: string, color: string) =>
    point([mark(name, fill(color), stroke(theme.ground, 0.6)), leaf("se:Size", 6)]);
  const dot = (layer: string, title: string, name: string) =>
    rule({
      name: layer,
      title,
      filter: isLayer(layer),
      belowScale: CLOSE_BELOW_SCALE,
      symbolizers: [small(name, surroundings.sign)],
    });
  const way = (layer: string, title: string, widthPx: number, color: string) =>
    rule({
      name: layer,
      title,
      filter: isLayer(layer),
      symbolizers: [line(stroke(color, widthPx, { "stroke-linecap": "round", "stroke-linejoin": "round" }))],
    });
  return sldDocument("surroundings", "What stands around the trees", [
    rule({
      name: "buildings",
      title: "building",
      filter: isLayer("buildings"),
      symbolizers: [area(fill(surroundings.building), stroke(surroundings.buildingEdge, 0.5))],
    }),
    way("roads", "road", 2, surroundings.roadEdge),
    way("paths", "walkway or bikeway", 1, surroundings.pathEdge),
    rule({
      name: "conductors",
      title: DEFAULT_WORDS.legend.conductor,
      filter: isLayer("conductors"),
      belowScale: 50_000,
      symbolizers: [line(stroke(surroundings.conductor, TOKENS.line.conductorPx))],
    }),
    dot("signs", "sign", "circle"),
    dot("signals", "signal", "square"),
  ]);
}
