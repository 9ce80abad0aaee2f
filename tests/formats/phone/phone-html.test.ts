import { createHash } from "node:crypto";
import { inflateSync, strFromU8 } from "fflate";
import { describe, expect, test } from "vitest";
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
    const shell = { appVersion: "0", language: "en", noScript: "", base: "", style: "", script: "'</SCRIPT>'" };
    await expect(phoneHtml(smallPage, shell)).rejects.toThrow(RangeError);
  });
});

test("base64 says what Node says, also of more bytes than a call takes arguments", () => {
  const bytes = Uint8Array.from({ length: 200_001 }, (_, at) => (at * 31) % 256);
  expect(base64(bytes)).toBe(Buffer.from(bytes).toString("base64"));
  expect(base64(new Uint8Array(0))).toBe("");
});
