import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { zonesPanelStyles } from "../../src/map/zoning/zones-panel-styles.ts";

test("the panel of the zone tools has its styles", () => {
  expect(zonesPanelStyles.cssText).toContain(".fold");
});

// A template with an escape such as \2013 has no text at all, and so its element no styles, without a word of complaint.
test("no style sheet in a template has a CSS escape", () => {
  const folder = new URL("../../src/", import.meta.url);
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
  expect(files.length).toBeGreaterThan(100);
  const escaped = files.filter((name) =>
    /css`[^`]*(?<!\\)\\[0-9a-f]/i.test(readFileSync(new URL(name, folder), "utf8")),
  );
  expect(escaped).toEqual([]);
});
