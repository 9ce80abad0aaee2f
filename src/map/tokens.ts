import tokensJson from "../../styles/tokens.json" with { type: "json" };
import type { Urgency } from "../core/model/terms.ts";

export type ThemeName = "light" | "dark" | "print";
/** Urgencies that are drawn in a tone; `clear` is an outline only. */
export type TonedUrgency = Exclude<Urgency, "clear">;

/** Colors of one theme, `#rrggbb`, by what they mean. */
export interface Theme {
  readonly ground: string;
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly hairline: string;
  readonly focus: string;
  readonly urgency: Readonly<Record<TonedUrgency, string>>;
  readonly vegetation: Readonly<Record<"fill" | "edge" | "trunk" | "dot", string>>;
  readonly surroundings: Readonly<
    Record<
      "road" | "roadEdge" | "path" | "pathEdge" | "building" | "buildingEdge" | "conductor" | "sign" | "label",
      string
    >
  >;
  readonly sight: Readonly<Record<"fill" | "edge" | "blind", string>>;
  readonly zone: string;
  readonly drawing: Readonly<Record<"crown" | "removed" | "clearance" | "ground", string>>;
}

/** The one table that layers, symbols, legend, style sheets, paper and phone page take their looks from. */
export interface Tokens {
  readonly themes: Readonly<Record<ThemeName, Theme>>;
  readonly mark: Omit<typeof tokensJson.mark, "farRadiusPx"> & {
    readonly farRadiusPx: Readonly<Record<Urgency, number>>;
  };
  readonly line: Omit<typeof tokensJson.line, "zonePx"> & { readonly zonePx: Readonly<Record<Urgency, number>> };
  readonly zonePattern: typeof tokensJson.zonePattern;
  readonly type: typeof tokensJson.type;
}

export const TOKENS: Tokens = tokensJson;

/** The colors of a theme as CSS custom properties, one declaration a line: `--boughline-ink: #2a2724;`. */
export function cssVariables(theme: ThemeName): string {
  return flatten(TOKENS.themes[theme], "--boughline")
    .map(([name, color]) => `${name}: ${color};`)
    .join("\n");
}

/** The type sizes as CSS custom properties; the same in every theme. */
export function typeVariables(): string {
  const { family, basePx, smallPx, titlePx } = TOKENS.type;
  return [
    `--boughline-font: ${family};`,
    `--boughline-text: ${basePx}px;`,
    `--boughline-text-small: ${smallPx}px;`,
    `--boughline-text-title: ${titlePx}px;`,
  ].join("\n");
}

function flatten(colors: object, prefix: string): [string, string][] {
  return Object.entries(colors).flatMap(([key, value]): [string, string][] => {
    const name = `${prefix}-${key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
    return typeof value === "string" ? [[name, value]] : flatten(value as object, name);
  });
}
