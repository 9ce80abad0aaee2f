import { existsSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";

const ROOT = path.join(import.meta.dirname, "../..");
const read = (file: string): string => readFileSync(path.join(ROOT, file), "utf8");
const SOURCES = read("tests/outside/SOURCES.md");

/** Folders of data that hold a page saying where they come from. */
const dataFolders = (parent: string): string[] =>
  readdirSync(path.join(ROOT, parent), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => `${parent}/${entry.name}`);

it("has an entry for every test in tests/outside", () => {
  const tests = readdirSync(path.join(ROOT, "tests/outside")).filter((name) => name.endsWith(".test.ts"));
  expect(tests.length).toBeGreaterThan(10);
  expect(tests.filter((name) => !SOURCES.includes(`\`${name}\``))).toEqual([]);
});

it("names only tests that are there", () => {
  const named = [...SOURCES.matchAll(/`([a-z0-9-]+\.test\.ts)`/g)].map((match) => match[1]!);
  expect(named.filter((name) => !existsSync(path.join(ROOT, "tests/outside", name)))).toEqual([]);
});

it("names every source of the standard, known as the standard says", () => {
  const rows = SOURCES.split("\n").map((line) => line.split("|").map((cell) => cell.trim()));
  const known = new Map(rows.map(([, title, how = ""]) => [title, how]));
  const faults: string[] = [];
  const visit = (value: unknown): void => {
    if (typeof value !== "object" || value === null) return;
    const { title, known: how } = value as { title?: unknown; known?: unknown };
    if (typeof title === "string" && typeof how === "string") {
      const said = known.get(title);
      if (said === undefined) faults.push(`missing: ${title}`);
      else if (!said.startsWith(how === "our-policy" ? "our policy" : how))
        faults.push(`${how}, not ${said}: ${title}`);
    }
    for (const member of Object.values(value)) visit(member);
  };
  const profiles = readdirSync(path.join(ROOT, "src/core/standard/profiles")).map((name) => `profiles/${name}`);
  for (const file of ["us-common.json", ...profiles]) {
    const { title: _title, ...standard } = JSON.parse(read(`src/core/standard/${file}`)) as Record<string, unknown>;
    visit(standard);
  }
  expect(faults).toEqual([]);
});

it("names every folder of data, each with a page of its own", () => {
  const folders = [...dataFolders("docs/data-sources"), ...dataFolders("tests/fixtures")];
  expect(folders.length).toBeGreaterThan(3);
  expect(folders.filter((folder) => !SOURCES.includes(folder))).toEqual([]);
  expect(folders.filter((folder) => !existsSync(path.join(ROOT, folder, "README.md")))).toEqual([]);
});

it("is opened with its source in every test of tests/outside", () => {
  const tests = readdirSync(path.join(ROOT, "tests/outside")).filter((name) => name.endsWith(".test.ts"));
  const bare = tests.filter((name) => !/\b(Sources?|Formula)\b|\b(19|20)\d\d, "/.test(read(`tests/outside/${name}`)));
  expect(bare).toEqual([]);
});
