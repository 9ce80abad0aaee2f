import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { request, type Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { serveFolders } from "../../src/cli/server/static-server.ts";

let server: Server;
let address: string;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "boughline-server-"));
  mkdirSync(join(folder, "site"));
  mkdirSync(join(folder, "plan"));
  writeFileSync(join(folder, "site", "index.html"), "<title>site</title>");
  writeFileSync(join(folder, "plan", "plan.json"), "{}");
  writeFileSync(join(folder, "secret.txt"), "secret");
  symlinkSync(join(folder, "secret.txt"), join(folder, "site", "link.txt"));
  const mounts = [
    { path: "/", folder: join(folder, "site") },
    { path: "/plan/current/", folder: async () => join(folder, "plan") },
    { path: "/none/", folder: async () => null },
  ];
  ({ server, address } = await serveFolders(mounts, 0));
});

afterAll(() => {
  server.close();
  rmSync(folder, { recursive: true, force: true });
});

/** The raw request, so that no client tidies the path or the host. */
function ask(path: string, options: { host?: string; method?: string; site?: string } = {}) {
  return new Promise<{ status: number; body: string; type: string | undefined }>((resolve, reject) => {
    const { hostname, port } = new URL(address);
    const headers = {
      host: options.host ?? `127.0.0.1:${port}`,
      ...(options.site ? { "sec-fetch-site": options.site } : {}),
    };
    request({ hostname, port, path, method: options.method ?? "GET", headers }, (response) => {
      let body = "";
      response.on("data", (chunk) => {
        body += chunk;
      });
      response.on("end", () => resolve({ status: response.statusCode!, body, type: response.headers["content-type"] }));
    })
      .on("error", reject)
      .end();
  });
}

test("files of each mount are served with their type, the longest path first", async () => {
  expect(await ask("/")).toMatchObject({ status: 200, body: "<title>site</title>", type: "text/html; charset=utf-8" });
  expect(await ask("/plan/current/plan.json")).toMatchObject({ status: 200, body: "{}", type: "application/json" });
  expect((await ask("/none/plan.json")).status).toBe(404);
});

test.each(["/../secret.txt", "/..%2fsecret.txt", "/%2e%2e/secret.txt", "/link.txt", "/site%00.html", "/plan"])(
  "nothing outside the mounted folder is served: %s",
  async (path) => {
    const { status, body } = await ask(path);
    expect([400, 404]).toContain(status);
    expect(body).not.toContain("secret");
  },
);

test("another site's page, another host name and another method are refused", async () => {
  expect((await ask("/", { host: "plans.example" })).status).toBe(403);
  expect((await ask("/", { site: "cross-site" })).status).toBe(403);
  expect((await ask("/", { method: "POST" })).status).toBe(405);
});

test("a part of a file is served alone, and one past its end refused", async () => {
  const part = (range: string) => fetch(`${address}plan/current/plan.json`, { headers: { range } });
  const first = await part("bytes=0-0");
  expect([first.status, await first.text(), first.headers.get("content-range")]).toEqual([206, "{", "bytes 0-0/2"]);
  expect(first.headers.get("content-length")).toBe("1");
  expect(await (await part("bytes=-1")).text()).toBe("}");
  const beyond = await part("bytes=2-");
  expect([beyond.status, beyond.headers.get("content-range")]).toEqual([416, "bytes */2"]);
  expect(await (await part("bytes=0-0,1-1")).text()).toBe("{}");
});
