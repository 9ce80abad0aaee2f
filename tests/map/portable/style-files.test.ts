import { existsSync, readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { styleFiles } from "../../../src/map/style-files.ts";

const folder = new URL("../../../styles/", import.meta.url);
const made = styleFiles();

test.each([...made.keys()])("styles/%s is what the code makes", (name) => {
  const content = made.get(name)!;
  expect(existsSync(new URL(name, folder))).toBe(true);
  const bytes = readFileSync(new URL(name, folder));
  if (typeof content === "string") expect(bytes.toString("utf8")).toBe(content);
  else expect(bytes.equals(content)).toBe(true);
});

test("styles/ holds nothing that nobody made", () => {
  const written = ["boughline.css", "tokens.json", "write-styles.ts"];
  const found = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => `${entry.parentPath}/${entry.name}`.split("/styles/").at(-1)!.replace(/^\//, ""));
  expect(found.sort()).toEqual([...made.keys(), ...written].sort());
});
