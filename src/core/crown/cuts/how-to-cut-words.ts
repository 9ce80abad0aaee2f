import type { HowToCut } from "./how-to-cut.ts";

/** How to cut as one plain text, for tables: what to do, what not, tools and their cleaning. */
export const howToCutWords = ({ steps, doNot, tools, cleaning }: HowToCut): string =>
  [...steps, ...doNot, ...tools, ...cleaning].map(({ text }) => text).join(" ");
