import { CERTAINTIES, type Certainty, REMEDIES, type Remedy, URGENCIES, type Urgency } from "../../core/model/terms.ts";
import { markShape } from "../symbols/mark-shape.ts";
import { MARK_BOX_PX } from "../symbols/paint-mark.ts";
import { type Theme, TOKENS, type TonedUrgency } from "../tokens.ts";
import { DEFAULT_WORDS } from "../words.ts";
import {
  all,
  any,
  element,
  fill,
  IN_METERS,
  isEqual,
  isNull,
  isOther,
  leaf,
  mark,
  picture,
  point,
  property,
  rule,
  sldDocument,
  stroke,
  text,
} from "./sld-parts.ts";

/** Where marks give way to dots, and crowns begin, about where the plugin's map does so, in pixels of 0.28 mm. */
const SHAPES_BELOW_SCALE = 12_000;
const CROWNS_BELOW_SCALE = 2_500;
const FIGURES_BELOW_SCALE = 1_000;
const TONED = URGENCIES.filter((urgency): urgency is TonedUrgency => urgency !== "clear");

/** Standard shapes for readers that cannot have the pictures: each remedy its own. */
const PLAIN_SHAPES: Readonly<Record<Remedy, string>> = {
  lift: "triangle",
  shorten: "square",
  "remove-limb": "star",
  remedial: "circle",
  structural: "cross",
  refer: "x",
  none: "circle",
};

/** Name of the file with a mark's picture. */
export const markFile = (remedy: Remedy, urgency: TonedUrgency, certainty: Certainty): string =>
  `mark-${remedy}-${urgency}-${certainty}.svg`;

/** Certainties that a remedy's mark tells apart: a look at a tree needs no outline of its own. */
export const certaintiesOf = (remedy: Remedy): readonly Certainty[] =>
  remedy === "none" ? ["confirmed"] : CERTAINTIES;

/** Whether something is wanted of a tree: a remedy, or a conflict to watch. */
const hasConflicts = all(isOther("bough_conflicts", ""), element("ogc:Not", "", [isNull("bough_conflicts")]));
const nothingWanted = any(
  isEqual("bough_urgency", "clear"),
  all(isEqual("bough_remedy", "none"), any(isEqual("bough_conflicts", ""), isNull("bough_conflicts"))),
);

/** The style of `trees.geojson`: crowns at true size close up, marks by remedy, urgency and certainty, dots far out. */
export function treesSld(theme: Theme): string {
  return sldDocument("trees", "Trees: what is to be done, how soon, how sure", [
    crownRule(theme),
    ...quietRules(theme),
    ...TONED.toReversed().flatMap((urgency) => [
      farRule(theme, urgency),
      ...REMEDIES.flatMap((remedy) =>
        certaintiesOf(remedy).map((certainty) => markRule(theme, remedy, urgency, certainty)),
      ),
    ]),
    ...figureRules(theme),
  ]);
}

function crownRule(theme: Theme): string {
  const across = element("ogc:Mul", "", [property("bough_crown_radius_m"), leaf("ogc:Literal", 2)]);
  const crown = mark("circle", fill(theme.vegetation.fill, 0.5), stroke(theme.vegetation.edge, 0.1));
  return rule({
    name: "crown",
    title: "crown at its mean radius",
    belowScale: CROWNS_BELOW_SCALE,
    symbolizers: [point([crown, element("se:Size", "", [across])], IN_METERS)],
  });
}

function quietRules(theme: Theme): string[] {
  const dot = (inside: string, widthPx: number, sizePx: number) =>
    point([mark("circle", fill(inside), stroke(theme.quiet, widthPx)), leaf("se:Size", sizePx)]);
  return [
    rule({
      name: "clear",
      title: DEFAULT_WORDS.urgency.clear,
      filter: isEqual("bough_urgency", "clear"),
      symbolizers: [dot(theme.ground, 1, 5)],
    }),
    rule({
      name: "nothing-found",
      title: DEFAULT_WORDS.legend.nothingFound,
      filter: all(isOther("bough_urgency", "clear"), nothingWanted),
      symbolizers: [dot(theme.vegetation.dot, 0.3, 4)],
    }),
  ];
}

/** What a tree of an urgency is when something is wanted of it. */
const isWanted = (urgency: Urgency): string[] => [
  isEqual("bough_urgency", urgency),
  any(isOther("bough_remedy", "none"), hasConflicts),
];

function farRule(theme: Theme, urgency: TonedUrgency): string {
  const sizePx = Math.round(TOKENS.mark.farRadiusPx[urgency] * 2 * 1.3 * 10) / 10;
  const dot = mark("circle", fill(theme.urgency[urgency]), stroke(theme.ink, 0.4));
  return rule({
    name: `far-${urgency}`,
    title: DEFAULT_WORDS.urgency[urgency],
    filter: all(...isWanted(urgency)),
    fromScale: SHAPES_BELOW_SCALE,
    symbolizers: [point([dot, leaf("se:Size", sizePx)])],
  });
}

function markRule(theme: Theme, remedy: Remedy, urgency: TonedUrgency, certainty: Certainty): string {
  const { remedy: remedies, urgency: urgencies, certainty: certainties } = DEFAULT_WORDS;
  const isHollow = certainty === "possible";
  const plain = mark(
    PLAIN_SHAPES[remedy],
    fill(isHollow ? theme.ground : theme.urgency[urgency]),
    stroke(isHollow ? theme.urgency[urgency] : theme.ink, isHollow ? 2 : TOKENS.mark.outlinePx),
  );
  // A tree with work but without conflicts, such as a dead limb, has no certainty: its mark is whole, as on the plugin's map.
  const surely =
    certainty === "confirmed"
      ? [any(isEqual("bough_certainty", certainty), isNull("bough_certainty"))]
      : [isEqual("bough_certainty", certainty)];
  const sure = remedy === "none" ? [hasConflicts] : surely;
  return rule({
    name: `${remedy}-${urgency}-${certainty}`,
    title: [remedies[remedy], urgencies[urgency], ...(remedy === "none" ? [] : [certainties[certainty]])].join(", "),
    filter: all(isEqual("bough_remedy", remedy), isEqual("bough_urgency", urgency), ...sure),
    belowScale: SHAPES_BELOW_SCALE,
    symbolizers: [
      point([
        picture(markFile(remedy, urgency, certainty)),
        plain,
        leaf("se:Size", MARK_BOX_PX),
        markShape(remedy).turns ? element("se:Rotation", "", [property("bough_bearing_deg")]) : "",
      ]),
    ],
  });
}

/** The figure beside the crown, in meters as the file has it. */
function figureRules(theme: Theme): string[] {
  const figures = { lift: "bough_lift_m", shorten: "bough_shorten_m" } as const;
  return Object.entries(figures).map(([remedy, member]) =>
    rule({
      name: `figure-${remedy}`,
      title: `${DEFAULT_WORDS.remedy[remedy as Remedy]}, meters`,
      filter: all(isEqual("bough_remedy", remedy), element("ogc:Not", "", [isNull(member)])),
      belowScale: FIGURES_BELOW_SCALE,
      symbolizers: [text(`${remedy} ${property(member)} m`, TOKENS.type.mapPx, theme.ink, theme.ground)],
    }),
  );
}
