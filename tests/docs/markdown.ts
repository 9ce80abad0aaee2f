import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

export const ROOT = fileURLToPath(new URL("../../", import.meta.url));

/** A file of the repository as text; the path counts from its root. */
export const read = (path: string): string => readFileSync(ROOT + path, "utf8");

/** Folders that hold no page of ours. */
const FOREIGN = new Set(["node_modules", "dist", ".git", "plan", "fixtures"]);

/** Every Markdown page of the repository, from its root, sorted. */
export function pages(folder = ""): string[] {
  return readdirSync(ROOT + folder, { withFileTypes: true })
    .flatMap((entry) => {
      const path = `${folder}${entry.name}`;
      if (entry.isDirectory()) return FOREIGN.has(entry.name) ? [] : pages(`${path}/`);
      return entry.name.endsWith(".md") ? [path] : [];
    })
    .sort();
}

/** The cells of the first table behind a mark in a page, without its head: one list a row. Throws Error where there is none. */
export function tableAfter(text: string, mark: string): string[][] {
  const at = text.indexOf(mark);
  if (at < 0) throw new Error(`Expected "${mark}" in the page`);
  const lines = text.slice(at + mark.length).split("\n");
  const first = lines.findIndex((line) => line.startsWith("|"));
  const end = lines.findIndex((line, place) => place > first && !line.startsWith("|"));
  return lines.slice(first + 2, end < 0 ? undefined : end).map((line) =>
    line
      .slice(1, line.lastIndexOf("|"))
      .split("|")
      .map((cell) => cell.trim()),
  );
}

/** The text under a heading, up to the next heading of the same or a higher level. */
export function sectionOf(text: string, heading: string): string {
  const lines = text.split("\n");
  const start = lines.indexOf(heading);
  if (start < 0) throw new Error(`Expected the heading "${heading}" in the page`);
  const level = heading.indexOf(" ");
  const end = lines.findIndex((line, at) => at > start && /^#+ /.test(line) && line.indexOf(" ") <= level);
  return lines.slice(start, end < 0 ? undefined : end).join("\n");
}

/** Code spans of a text, fenced blocks left out. */
export const codeSpans = (text: string): string[] =>
  [...withoutFences(text).matchAll(/`([^`\n]+)`/g)].map((match) => match[1]!);

/** A text without its fenced blocks. */
export const withoutFences = (text: string): string => text.replace(/^```[\s\S]*?^```/gm, "");
