import { cssVariables, typeVariables } from "../map/tokens.ts";

export type PageTheme = "light" | "dark";

/** Puts the color tables of both themes on the page, for components and page styles to take by name. */
export function adoptThemes(): void {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(
    `:root { ${typeVariables()} ${cssVariables("light")} }\n:root[data-theme="dark"] { ${cssVariables("dark")} }`,
  );
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
}

/** The theme the reader's system asks for. */
export const systemTheme = (): PageTheme => (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");

/** Shows the page in a theme. */
export function showTheme(theme: PageTheme): void {
  document.documentElement.dataset.theme = theme;
}
