import { sprite } from "./portable/sprite.ts";
import { styleFragment } from "./portable/style-fragment.ts";
import { cssVariables, type ThemeName, typeVariables } from "./tokens.ts";

const THEMES: readonly ThemeName[] = ["light", "dark", "print"];

/**
 * The generated files of `styles/`, by name: for each theme a style over a plan's files and its sprite for plain and for dense screens,
 * and the tokens as CSS custom properties.
 */
export function styleFiles(): ReadonlyMap<string, string | Uint8Array> {
  const files = new Map<string, string | Uint8Array>();
  for (const theme of THEMES) {
    files.set(`boughline-${theme}.json`, `${JSON.stringify(styleFragment(theme), null, 2)}\n`);
    for (const pixelRatio of [1, 2] as const) {
      const { index, sheet } = sprite(theme, pixelRatio);
      const name = `sprite-${theme}${pixelRatio === 2 ? "@2x" : ""}`;
      files.set(`${name}.json`, index);
      files.set(`${name}.png`, sheet);
    }
  }
  files.set("tokens.css", tokensText());
  return files;
}

function tokensText(): string {
  const block = (selector: string, lines: string, indent = "") =>
    `${indent}${selector} {\n${lines
      .split("\n")
      .map((line) => `${indent}  ${line}\n`)
      .join("")}${indent}}\n`;
  return [
    "/* Made from tokens.json by `npm run styles`; edit that. */\n",
    block(".boughline-control", `${typeVariables()}\n${cssVariables("light")}`),
    block('.boughline-control[data-theme="dark"]', cssVariables("dark")),
    block('.boughline-control[data-theme="print"]', cssVariables("print")),
    `@media print {\n${block(".boughline-control,\n  .boughline-control[data-theme]", cssVariables("print"), "  ")}}\n`,
  ].join("\n");
}
