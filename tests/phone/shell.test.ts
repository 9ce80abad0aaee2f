import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { phoneShell, shellText } from "../../src/phone/make/phone-shell.ts";

const committed = readFileSync(new URL("../../src/formats/phone/phone-shell.json", import.meta.url), "utf8");

test("the committed shell is what its sources make; `npm run phone-page` makes it again", async () => {
  // Compared as a whole, not by `toBe`, which would print both.
  expect(shellText(await phoneShell()) === committed).toBe(true);
});

test("names the version of package.json", () => {
  const { version } = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
  expect(JSON.parse(committed).appVersion).toBe(version);
});
