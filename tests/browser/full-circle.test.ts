import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { METERS_PER_FOOT } from "../../src/core/units/length.ts";
import { COMMAND } from "../faults/command.ts";
import { filesBelow, isSameState } from "../faults/folder-state.ts";
import { linesOf, zonesOf } from "../faults/report-of-zone.ts";
import { smallTown } from "../faults/small-town.ts";
import { launchChromium } from "./chromium.ts";
import { goTo, openPhone } from "./phone-page.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "boughline-circle-"));
const plan = join(folder, "plan");
let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Runs the command as a user would; throws when it does not end with 0. */
const run = (...argv: string[]): string =>
  execFileSync(process.execPath, [...COMMAND, ...argv], { cwd: root, encoding: "utf8" });

/** A tree feature of a revision by the tree's id, as text. */
function treesOf(revision: string): Map<string, string> {
  const { features } = JSON.parse(readFileSync(join(plan, revision, "trees.geojson"), "utf8")) as {
    features: object[];
  };
  const ids = linesOf(plan, revision).map(({ tree }) => tree.id);
  return new Map(features.map((feature, at) => [ids[at]!, JSON.stringify(feature)]));
}

async function mark(page: Page, number: number, outcome: string): Promise<void> {
  await goTo(page, `#tree/${number}`);
  await page.locator(`label[for=outcome-${outcome}]`).click();
}

test("a plan goes out as a packet, comes back from a phone without a network, and changes just what was reported", async () => {
  run("enrich", ...smallTown(folder, 60), "--out", plan);
  run("zone", plan);
  const lines = new Map(linesOf(plan).map((line) => [line.tree.id, line]));
  const treeOf = (visitId: string): string => visitId.slice(0, visitId.lastIndexOf("/v"));
  // A zone with work enough for all four answers, whose first tree is tall enough for the crown base typed below.
  const zone = zonesOf(plan).find(
    ({ visit_ids: ids }) => ids.length >= 5 && lines.get(treeOf(ids[0]!))!.tree.height.valueM > 6,
  )!;
  run("packet", plan, "--zone", zone.zone);
  const packet = readdirSync(join(plan, "current/packets")).find((name) => name.endsWith(".zip"))!;
  const html = new TextDecoder().decode(unzipSync(readFileSync(join(plan, "current/packets", packet)))["phone.html"]);

  const { page, expectQuiet, close } = await openPhone(browser, html);
  await mark(page, 1, "done");
  await page.getByLabel("New crown base").fill("15 ft");
  await page.getByLabel("Live crown taken").fill("8");
  await mark(page, 2, "done");
  await mark(page, 3, "partly");
  await page.getByLabel("Reason").selectOption({ label: "Out of time" });
  await mark(page, 4, "not-done");
  await page.getByLabel("Reason").selectOption({ label: "Tree is gone" });
  await goTo(page, "#report");
  await page.getByLabel("Crew leader").fill("R. Alder");
  await page.getByLabel("Crew hours worked").fill("6.5");
  await page.getByRole("button", { name: "Add a hazard" }).click();
  await page.getByLabel("What is dangerous").fill("Hanger over the walk");
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save completion file" }).click(),
  ]);
  const report = join(folder, "from-phone.json");
  writeFileSync(report, readFileSync(await download.path()));
  expectQuiet();
  await close();

  const before = filesBelow(plan);
  expect(run("record", plan, report, "--preview")).toContain("To be taken: 4");
  expect(isSameState(filesBelow(plan), before)).toBe(true);
  run("record", plan, report);

  // Just the four trees reported have new figures; every other tree is the same to the byte.
  const reported = zone.visit_ids.slice(0, 4).map(treeOf);
  const [was, is] = [treesOf("revisions/2"), treesOf("current")];
  const changed = [...is].filter(([id, text]) => text !== was.get(id)).map(([id]) => id);
  expect(changed.toSorted()).toEqual(reported.toSorted());
  const after = new Map(linesOf(plan).map((line) => [line.tree.id, line]));
  for (const [id, line] of after) if (!reported.includes(id)) expect(line).toEqual(lines.get(id));

  const [done, asPlanned, partly, gone] = reported.map((id) => after.get(id));
  expect(done!.tree.crownBase.valueM).toBeCloseTo(15 * METERS_PER_FOOT, 3);
  expect(done!.tree.crownBase).toMatchObject({ basis: "measured", source: "measured by crew, 2027-01-21" });
  expect(done!.tree).toMatchObject({ lastPruned: "2027-01-21", lastDoseShare: 0.08, worked: { outcome: "done" } });
  // What was reported done without a dose took what was planned.
  const planned = lines.get(asPlanned!.tree.id)!.prescription.visits[0]!;
  expect(asPlanned!.tree.lastDoseShare).toBeCloseTo(planned.doseShare, 12);
  expect(partly!.prescription.visits).toEqual(lines.get(partly!.tree.id)!.prescription.visits);
  expect(partly!.prescription.cautions[0]).toMatch(/^Partly done on 21 Jan 2027 by R\. Alder/);
  expect(gone!.prescription.visits).toEqual([]);

  const zoneAfter = zonesOf(plan).find((one) => one.zone === zone.zone)!;
  expect(zoneAfter).toMatchObject({ state: "under-way" });
  const doneVisits = [zone.visit_ids[0], zone.visit_ids[1], zone.visit_ids[3]];
  expect(zoneAfter.visit_ids).toEqual(zone.visit_ids.filter((id) => !doneVisits.includes(id)));
  expect(readFileSync(join(plan, "current/added.geojson"), "utf8")).toContain("Hanger over the walk");
  expect(readFileSync(join(plan, "current/findings.csv"), "utf8")).toContain('"work-hazard"');

  // Twice is the same as once, and the next packets hold what is left.
  const once = filesBelow(plan);
  expect(run("record", plan, report)).toContain("there is nothing new to take");
  expect(isSameState(filesBelow(plan), once)).toBe(true);
  run("packet", plan, "--zone", zone.zone);
}, 600_000);
