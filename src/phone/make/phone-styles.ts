import { readFileSync } from "node:fs";

interface Theme {
  readonly ground: string;
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly hairline: string;
  readonly focus: string;
  readonly urgency: Readonly<Record<string, string>>;
  readonly vegetation: { readonly fill: string; readonly edge: string; readonly trunk: string };
  readonly surroundings: Readonly<
    Record<"road" | "roadEdge" | "path" | "pathEdge" | "building" | "buildingEdge" | "conductor", string>
  >;
  readonly drawing: {
    readonly crown: string;
    readonly removed: string;
    readonly clearance: string;
    readonly ground: string;
  };
}

const FONTS = new URL("../../../node_modules/@fontsource/source-sans-3/files/", import.meta.url);

/** The font and the design's tones for light and dark ground. */
export function baseStyles(): string {
  const { themes } = JSON.parse(readText("../../../styles/tokens.json")) as { themes: Record<"light" | "dark", Theme> };
  const faces = ([400, 600] as const).map((weight) => {
    const file = readFileSync(new URL(`source-sans-3-latin-${weight}-normal.woff2`, FONTS));
    return (
      `@font-face{font-family:"Source Sans 3";font-weight:${weight};` +
      `src:url(data:font/woff2;base64,${file.toString("base64")}) format("woff2")}`
    );
  });
  const dark = `color-scheme:dark;${tones(themes.dark)}`;
  return [
    ...faces,
    `:root{color-scheme:light;${tones(themes.light)}}`,
    `@media (prefers-color-scheme:dark){:root:not([data-theme=light]){${dark}}}`,
    `:root[data-theme=dark]{${dark}}`,
  ].join("\n");
}

/** The page's own rules. */
export const phoneStyles = (): string => readText("../phone.css");

const readText = (path: string): string => readFileSync(new URL(path, import.meta.url), "utf8");

/** A theme as custom properties; the names of drawing tones are those that drawings ask for. */
const tones = ({ urgency, vegetation, surroundings, drawing, ...page }: Theme): string =>
  Object.entries({
    ground: page.ground,
    paper: page.paper,
    ink: page.ink,
    quiet: page.quiet,
    hairline: page.hairline,
    focus: page.focus,
    ...Object.fromEntries(Object.entries(urgency).map(([name, tone]) => [`urgency-${name}`, tone])),
    vegetation: vegetation.fill,
    "vegetation-edge": vegetation.edge,
    trunk: vegetation.trunk,
    road: surroundings.road,
    "road-edge": surroundings.roadEdge,
    path: surroundings.path,
    "path-edge": surroundings.pathEdge,
    building: surroundings.building,
    "building-edge": surroundings.buildingEdge,
    conductor: surroundings.conductor,
    crown: drawing.crown,
    removed: drawing.removed,
    clearance: drawing.clearance,
    earth: drawing.ground,
  })
    .map(([name, tone]) => `--bough-${name}:${tone}`)
    .join(";");
