import { expect, it } from "vitest";
import { resolveStandard } from "../../src/core/standard/resolve-standard.ts";
import { SHIPPED_STANDARDS } from "../../src/core/standard/shipped-standards.ts";
import { ruleFields } from "../../src/core/standard/standard-schema.ts";
import { codeSpans, read, sectionOf, tableAfter } from "./markdown.ts";

const page = read("docs/standards.md");
const code = (text: string): string => `\`${text}\``;

it("lists the standards that ship, as the help does", () => {
  expect(tableAfter(page, "## Shipped standards")).toEqual(SHIPPED_STANDARDS.map(({ id, title }) => [code(id), title]));
});

it("shows a file of changes that works, and the changes it makes", () => {
  const example: unknown = JSON.parse(/```json\n([\s\S]*?)```/.exec(page)?.[1] ?? "");
  const resolved = resolveStandard(example);
  if ("faults" in resolved) throw new Error(resolved.faults.join("\n"));
  expect(resolved.findings.map(({ code }) => code)).toEqual(["standard-changed"]);
  const shown = tableAfter(page, "lists every changed value");
  const made = resolved.standard.changes.map(({ path, from, to, by, source }) => [
    code(path),
    String(from),
    String(to),
    by,
    source.title,
  ]);
  for (const row of shown) expect(made).toContainEqual(row);
});

it("shows nothing but files of changes that work", () => {
  const blocks = [...page.matchAll(/```json\n([\s\S]*?)```/g)].map((match) => JSON.parse(match[1]!) as unknown);
  expect(blocks.length).toBeGreaterThan(1);
  for (const block of blocks) expect(resolveStandard(block)).not.toHaveProperty("faults");
});

it("names every member of a rule", () => {
  const named = codeSpans(sectionOf(page, "## Members of a rule"));
  expect(Object.keys(ruleFields.shape).filter((member) => !named.includes(member))).toEqual([]);
});
