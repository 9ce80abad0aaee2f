import { conflictsSld, sightSld, surroundingsSld, zonesSld } from "./portable/sld-places.ts";
import { treesSld } from "./portable/sld-trees.ts";
import { sprite } from "./portable/sprite.ts";
import { styleFragment } from "./portable/style-fragment.ts";
import { symbolFiles } from "./portable/symbol-files.ts";
import { cssVariables, type ThemeName, TOKENS, typeVariables } from "./tokens.ts";

const THEMES: readonly ThemeName[] = ["light", "dark", "print"];

/**
 * The generated files of `styles/`, by name: for each theme a style over a plan's files and its sprite for plain and for dense screens;
 * for desktop and server GIS an SLD a file of the plan with the pictures it names, in the light theme; and the tokens as CSS custom
 * properties.
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
  const { light } = TOKENS.themes;
  files.set("sld/trees.sld", treesSld(light));
  files.set("sld/conflicts.sld", conflictsSld(light));
  files.set("sld/sight.sld", sightSld(light));
  files.set("sld/zones.sld", zonesSld(light));
  files.set("sld/surroundings.sld", surroundingsSld(light));
  for (const [name, svg] of symbolFiles(light)) files.set(`sld/${name}`, svg);
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
