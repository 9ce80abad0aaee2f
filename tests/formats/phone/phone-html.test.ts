import { createHash } from "node:crypto";
import { inflateSync, strFromU8 } from "fflate";
import { describe, expect, test } from "vitest";
import type { Plan } from "../../../src/core/model/plan.ts";
import { base64 } from "../../../src/formats/phone/base64.ts";
import { phoneHtml } from "../../../src/formats/phone/phone-html.ts";
import { smallPlan, smallZone } from "../../core/packet/small-plan.ts";
import { pageOf, smallPage } from "../../phone/phone-sample.ts";

const html = await phoneHtml(smallPage);
const policyOf = (text: string) => /Content-Security-Policy" content="([^"]*)"/.exec(text)![1]!;
const between = (text: string, start: string, end: string) =>
  text.slice(text.lastIndexOf(start) + start.length, text.lastIndexOf(end));

describe("phoneHtml", () => {
  test("gives the same bytes twice", async () => {
    expect(await phoneHtml(smallPage)).toBe(html);
  });

  test("holds the whole content", () => {
    const content = /id="page-content">([^<]*)</.exec(html)![1]!;
    expect(JSON.parse(strFromU8(inflateSync(Buffer.from(content, "base64"))))).toEqual(
      JSON.parse(JSON.stringify(smallPage)),
    );
  });

  test("lets run only its own script and style, and nothing be fetched", () => {
    const policy = policyOf(html);
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe|https?:|\*|blob:/);
    const sha = (text: string) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
    expect(policy).toContain(`script-src ${sha(between(html, "<script>", "</script>"))};`);
    expect(policy).toContain(`style-src ${sha(between(html, "<style>", "</style>"))};`);
  });

  test("asks for nothing: every address in it is a name of SVG or a piece of the page itself", () => {
    const addresses = [...html.matchAll(/(?:https?:)?\/\/[\w.-]+\.[a-z]{2,}[^\s"'`)]*/g)].map((match) => match[0]);
    expect(addresses.filter((address) => !address.startsWith("http://www.w3.org/2000/svg"))).toEqual([]);
    expect(html).not.toMatch(/<(link|img|iframe|object|embed|base)\b/i);
    expect(html).not.toMatch(/\bfetch\(|XMLHttpRequest|WebSocket|EventSource|sendBeacon|\beval\(|new Function/);
  });

  test("stays under 1.5 MB for 60 trees, sketch of the closure and all", async () => {
    const copies = Array.from({ length: 7 }, (_, copy) => copy);
    const rows = smallPlan.trees.length;
    const at = (copy: number) => ({
      row: (row: number) => row + copy * rows,
      id: (id: string) => `${id}-${copy}`,
    });
    const plan: Plan = {
      ...smallPlan,
      trees: copies.flatMap((copy) =>
        smallPlan.trees.map((tree) => ({ ...tree, row: at(copy).row(tree.row), id: at(copy).id(tree.id) })),
      ),
      conflicts: copies.flatMap((copy) =>
        smallPlan.conflicts.map((one) => ({
          ...one,
          treeRow: at(copy).row(one.treeRow),
          treeId: at(copy).id(one.treeId),
          // Each tree's drawing differs, so that compression finds no copies.
          measuredM: one.measuredM + copy * 0.013,
        })),
      ),
      settings: copies.flatMap((copy) =>
        smallPlan.settings.map((one) => ({ ...one, treeRow: at(copy).row(one.treeRow) })),
      ),
      prescriptions: copies.flatMap((copy) =>
        smallPlan.prescriptions.map((one) => ({
          ...one,
          treeRow: at(copy).row(one.treeRow),
          treeId: at(copy).id(one.treeId),
          visits: one.visits.map((visit) => ({
            ...visit,
            visitId: at(copy).id(visit.visitId),
            treeRow: at(copy).row(visit.treeRow),
            treeId: at(copy).id(visit.treeId),
          })),
        })),
      ),
    };
    const visits = plan.prescriptions.flatMap((one) => one.visits).slice(0, 60);
    const zone = {
      ...smallZone,
      visitIds: visits.map(({ visitId }) => visitId),
      treeIds: visits.map(({ treeId }) => treeId),
    };
    const page = pageOf(plan, zone);
    expect(page.stops).toHaveLength(60);
    expect((await phoneHtml(page)).length).toBeLessThan(1_500_000);
  });

  test("puts no text of the plan into the markup", async () => {
    const hostile = "</script><script>globalThis.__pwned=1</script><img src=x onerror=alert(1)>";
    const trees = smallPlan.trees.map((tree) => ({ ...tree, commonName: hostile, address: hostile }));
    const page = pageOf({ ...smallPlan, trees }, { ...smallZone, name: hostile });
    const text = await phoneHtml(page);
    expect(text).not.toContain("__pwned=1</script>");
    expect(text).not.toContain("<img");
    expect(text.match(/<script/g)).toHaveLength(2);
    expect(text).toContain("<title>&lt;/script&gt;");
  });

  test("refuses a script that would end its element early", async () => {
    const shell = { appVersion: "0", noScript: {}, base: "", style: "", script: "'</SCRIPT>'" };
    await expect(phoneHtml(smallPage, shell)).rejects.toThrow(RangeError);
  });
});

test("base64 says what Node says, also of more bytes than a call takes arguments", () => {
  const bytes = Uint8Array.from({ length: 200_001 }, (_, at) => (at * 31) % 256);
  expect(base64(bytes)).toBe(Buffer.from(bytes).toString("base64"));
  expect(base64(new Uint8Array(0))).toBe("");
});
