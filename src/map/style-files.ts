import { createLayers } from "./create-layers.ts";
import { cssVariables, typeVariables } from "./tokens.ts";

/**
 * The generated files of `styles/`, by name: the layers over empty sources as whole styles, for hosts that put them into their own, and
 * the tokens as CSS custom properties. The images the styles name are drawn by code (`createLayers(...).images`).
 */
export function styleFiles(): ReadonlyMap<string, string> {
  return new Map([
    ["boughline-light.json", styleText("light")],
    ["boughline-dark.json", styleText("dark")],
    ["tokens.css", tokensText()],
  ]);
}

function styleText(theme: "light" | "dark"): string {
  const { sources, layers } = createLayers(null, { theme });
  return `${JSON.stringify({ version: 8, name: `Boughline ${theme}`, sources, layers }, null, 2)}\n`;
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
    `@media print {\n${block(".boughline-control", cssVariables("print"), "  ")}}\n`,
  ].join("\n");
}
