import { describe, expect, it } from "vitest";
import { NOT_DONE_REASONS, OUTCOMES } from "../../src/core/plan/completion/completion.ts";
import { COMPLETION_LIMITS, completionSchema } from "../../src/core/plan/completion/completion-schema.ts";
import { parseCompletion } from "../../src/core/plan/completion/parse-completion.ts";
import { read } from "./markdown.ts";

const page = read("docs/files.md");
const section = page.slice(page.indexOf("## Completion"), page.indexOf("## Exit codes"));
/** Names in the first cells of the section's tables, table after table. */
const tables = section
  .split(/\n\n/)
  .filter((block) => block.startsWith("| member"))
  .map((block) =>
    block
      .split("\n")
      .slice(2)
      .flatMap((row) => [...row.split("|")[1]!.matchAll(/`(\w+)`/g)].map((match) => match[1]!)),
  );
const visitShape = completionSchema.shape.visits.element.shape;

describe("the section on completions", () => {
  it("names every member of the file and of a visit, and no other", () => {
    expect(tables[0]!.sort()).toEqual(Object.keys(completionSchema.shape).sort());
    expect(tables[1]!.sort()).toEqual(Object.keys(visitShape).sort());
  });

  it("names every member of an added tree and of a hazard", () => {
    for (const [name, { shape }] of [
      ["addedTrees", completionSchema.shape.addedTrees.element],
      ["hazards", completionSchema.shape.hazards.element],
    ] as const) {
      const sentence = section.split(`Of each of \`${name}\`: `)[1]!.split(/\. (?=[A-Z`])/)[0]!;
      for (const member of Object.keys(shape)) expect(sentence).toContain(`\`${member}\``);
    }
  });

  it("names every outcome and reason, and the limits", () => {
    for (const word of [...OUTCOMES, ...NOT_DONE_REASONS]) expect(section).toContain(`\`${word}\``);
    expect(section).toContain(`at most ${COMPLETION_LIMITS.visits.toLocaleString("en-US")}`);
    expect(section).toContain(`at most ${COMPLETION_LIMITS.added.toLocaleString("en-US")} each`);
  });

  it("shows a completion that is read", () => {
    const example = JSON.parse(section.split("```json\n")[1]!.split("```")[0]!);
    expect(parseCompletion(example)).toEqual({ completion: example });
  });
});
