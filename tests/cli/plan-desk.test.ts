import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { request, type Server } from "node:http";
import { hostname, tmpdir } from "node:os";
import { join } from "node:path";
import { zipSync } from "fflate";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { LOCK } from "../../src/cli/folder/folder-lock.ts";
import { writeRevision } from "../../src/cli/folder/write-revision.ts";
import { BASE_HEADER, folderNow, TOKEN_HEADER, takeRevision } from "../../src/cli/server/plan-desk.ts";
import { serveFolders } from "../../src/cli/server/static-server.ts";
import { openPlan } from "../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../src/formats/plan/plan-source.ts";
import { revisePlan } from "../../src/formats/plan/revise-plan.ts";
import { smallPlanFiles } from "../app/small-plan.ts";

const TOKEN = "the-run's-token";
const COUNT = 12;
let base: string;
let dir: string;
let server: Server;
let address: string;

beforeEach(async () => {
  base = mkdtempSync(join(tmpdir(), "boughline-desk-"));
  dir = join(base, "plan");
  const note = { plan: "small-plan", as_of: "2026-11-02", event: "enrich" };
  await writeRevision(dir, smallPlanFiles(COUNT), { note });
  ({ server, address } = await serveFolders([{ path: "/plan/revisions", take: takeRevision(dir, TOKEN) }], 0));
});

afterEach(() => {
  server.close();
  rmSync(base, { recursive: true, force: true });
});

/** The plan with its zone renamed, as revision `revision`: only the files that differ, as the page sends them. */
async function edited(revision: number): Promise<Map<string, Uint8Array>> {
  const files = smallPlanFiles(COUNT);
  const { plan } = await openPlan(memorySource(files));
  const zones = plan.zones.map((zone) => ({ ...zone, name: "Renamed" }));
  const next = await revisePlan({ ...plan, revision, zones }, memorySource(files));
  return new Map([...next].filter(([name, bytes]) => Buffer.compare(bytes, files.get(name) ?? new Uint8Array()) !== 0));
}

interface Ask {
  readonly headers?: Record<string, string>;
  readonly without?: string;
  readonly body?: Uint8Array;
  readonly method?: string;
}

function ask({ headers = {}, without, body = new Uint8Array(), method = "POST" }: Ask) {
  const { hostname: host, port } = new URL(address);
  const all: Record<string, string> = {
    host: `127.0.0.1:${port}`,
    origin: `http://127.0.0.1:${port}`,
    "sec-fetch-site": "same-origin",
    "content-type": "application/zip",
    [TOKEN_HEADER]: TOKEN,
    [BASE_HEADER]: "1",
    ...headers,
  };
  if (without !== undefined) delete all[without];
  return new Promise<{ status: number; body: string }>((resolve, reject) => {
    request({ hostname: host, port, path: "/plan/revisions", method, headers: all }, (response) => {
      let text = "";
      response.on("data", (chunk) => {
        text += chunk;
      });
      response.on("end", () => resolve({ status: response.statusCode!, body: text }));
    })
      .on("error", reject)
      .end(body);
  });
}

const zipOf = (files: ReadonlyMap<string, Uint8Array>) => zipSync(Object.fromEntries(files));
const revisions = () => readdirSync(join(dir, "revisions")).sort();
const untouched = () => {
  expect(revisions()).toEqual(["1"]);
  expect(readFileSync(join(dir, "history.jsonl"), "utf8").trim().split("\n")).toHaveLength(1);
  expect(readdirSync(dir).sort()).toEqual(["current", "history.jsonl", "revisions"]);
};

test("a revision from the page is committed as any other, what it does not send carried over", async () => {
  expect(await folderNow(dir)).toMatchObject({ revision: 1, next: 2 });
  const changed = await edited(2);
  // The fixture's trees do not say in which zone they are; a revision's do.
  expect([...changed.keys()].sort()).toEqual(["plan.ics", "plan.json", "trees.geojson", "zones.geojson"]);
  const answer = await ask({ body: zipOf(changed) });
  expect(answer).toEqual({ status: 201, body: '{"revision":2}' });
  const path = join(dir, "revisions", "2");
  const { plan } = await openPlan({
    read: async (name) => (existsSync(join(path, name)) ? readFileSync(join(path, name)) : null),
  });
  expect([plan.revision, plan.zones[0]!.name]).toEqual([2, "Renamed"]);
  const [before, after] = ["1", "2"].map((n) => readFileSync(join(dir, "revisions", n, "conflicts.geojson")));
  expect(after!.equals(before!)).toBe(true);
  const history = readFileSync(join(dir, "history.jsonl"), "utf8").trim().split("\n");
  expect(JSON.parse(history[1]!)).toEqual({ revision: 2, plan: "small-plan", as_of: "2026-11-02", event: "edit" });
  expect(await folderNow(dir)).toMatchObject({ revision: 2, next: 3 });
});

describe("recorded work", () => {
  const REPORT = { reportId: "crew-3", file: "monday.json", sha256: "ab12", zoneId: "z-1", crewHours: 6 };
  const withRecord = async (revision: number, ...lines: readonly object[]): Promise<Uint8Array> => {
    const changed = await edited(revision);
    const text = [{ format: 1 }, ...lines].map((line) => `${JSON.stringify(line)}\n`).join("");
    changed.set("record.jsonl", new TextEncoder().encode(text));
    return zipOf(changed);
  };
  const historyLines = (): unknown[] =>
    readFileSync(join(dir, "history.jsonl"), "utf8")
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));

  test("is called so in the history, with the files that were taken", async () => {
    expect((await ask({ body: await withRecord(2, { line: "report", ...REPORT }) })).status).toBe(201);
    expect(historyLines()[1]).toMatchObject({
      revision: 2,
      event: "record",
      reports: [{ file: "monday.json", sha256: "ab12", report: "crew-3", zone: "z-1" }],
    });
  });

  test("that is damaged, or lacks what was recorded before, is not taken", async () => {
    const damaged = await ask({ body: await withRecord(2, { line: "nonsense" }) });
    expect(damaged.status).toBe(422);
    expect((await ask({ body: await withRecord(2, { line: "report", ...REPORT }) })).status).toBe(201);
    const lost = await ask({ headers: { [BASE_HEADER]: "2" }, body: await withRecord(3) });
    expect(lost.status).toBe(422);
    expect(historyLines()).toHaveLength(2);
  });
});

describe("refused, with the folder untouched", () => {
  test.each<[string, number, Ask]>([
    ["another site's page", 403, { headers: { origin: "https://evil.example", "sec-fetch-site": "cross-site" } }],
    ["a page of another port of this machine", 403, { headers: { origin: "http://127.0.0.1:1" } }],
    ["the same, as browsers mark it", 403, { headers: { "sec-fetch-site": "same-site" } }],
    ["a sandboxed page", 403, { headers: { origin: "null" } }],
    ["a request that does not say where it comes from", 403, { without: "origin" }],
    [
      "a name that was pointed at this machine",
      403,
      { headers: { host: "plans.example", origin: "http://plans.example" } },
    ],
    ["a wrong token", 403, { headers: { [TOKEN_HEADER]: "guess" } }],
    ["a token of the right length", 403, { headers: { [TOKEN_HEADER]: "x".repeat(TOKEN.length) } }],
    ["no token", 403, { without: TOKEN_HEADER }],
    ["a body that a form could send", 415, { headers: { "content-type": "text/plain" } }],
    ["a body too large, by what it says", 413, { headers: { "content-length": "500000001" } }],
    ["no zip", 400, { body: new TextEncoder().encode("{}") }],
    ["a file that no revision has", 400, { body: zipSync({ "../../evil.txt": new Uint8Array(1) }) }],
    ["a revision that is not the next", 422, {}],
    ["reading where only sending is meant", 405, { method: "GET" }],
    ["a method that is neither", 405, { method: "PUT" }],
  ])("%s", async (_, status, asked) => {
    const body = asked.body ?? zipOf(await edited(status === 422 ? 7 : 2));
    const wanted = "content-length" in (asked.headers ?? {}) ? new Uint8Array() : body;
    // A body announced and never sent would leave the request open; the answer comes before it.
    const answer = await ask({ ...asked, body: wanted });
    expect(answer.status).toBe(status);
    untouched();
  });

  test("a broken plan, and another plan", async () => {
    const broken = await edited(2);
    broken.set("zones.geojson", new TextEncoder().encode("{"));
    expect((await ask({ body: zipOf(broken) })).status).toBe(422);
    const other = await edited(2);
    const manifest = JSON.parse(new TextDecoder().decode(other.get("plan.json")));
    other.set("plan.json", new TextEncoder().encode(JSON.stringify({ ...manifest, plan: "another" })));
    const answer = await ask({ body: zipOf(other) });
    expect([answer.status, answer.body]).toEqual([422, expect.stringContaining("another plan")]);
    untouched();
  });

  test("a folder that another run is writing", async () => {
    const holder = { pid: 1, host: `not-${hostname()}`, started: null, token: "x" };
    writeFileSync(join(dir, LOCK), JSON.stringify(holder));
    expect((await ask({ body: zipOf(await edited(2)) })).status).toBe(423);
    expect(revisions()).toEqual(["1"]);
    rmSync(join(dir, LOCK));
  });
});

test("a page that opened an older revision is told so, and of two that save at once one is", async () => {
  const body = zipOf(await edited(2));
  const answers = await Promise.all([ask({ body }), ask({ body })]);
  expect(answers.map(({ status }) => status).filter((status) => status === 201)).toHaveLength(1);
  const late = await ask({ body: zipOf(await edited(3)) });
  expect(late.status).toBe(409);
  expect(JSON.parse(late.body)).toEqual({ reason: expect.stringContaining("moved on to revision 2"), current: 2 });
  expect(revisions()).toEqual(["1", "2"]);
});

test("numbers that were used are not used again", async () => {
  mkdirSync(join(dir, "revisions", "5"));
  expect((await folderNow(dir)).next).toBe(6);
  expect((await ask({ body: zipOf(await edited(6)) })).status).toBe(201);
});
