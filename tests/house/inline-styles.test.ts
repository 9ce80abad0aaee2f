import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";

const SRC = path.join(import.meta.dirname, "../../src");

it("no template of page, plugin or phone has a style attribute, which the page's content policy forbids", () => {
  const files = ["app", "map", "phone"].flatMap((folder) =>
    readdirSync(path.join(SRC, folder), { recursive: true, encoding: "utf8" })
      .filter((file) => file.endsWith(".ts") && !file.startsWith("make/"))
      .map((file) => path.join(folder, file)),
  );
  expect(files.length).toBeGreaterThan(200);
  expect(files.filter((file) => /\sstyle=["$]/.test(readFileSync(path.join(SRC, file), "utf8")))).toEqual([]);
});
