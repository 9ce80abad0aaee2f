import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { chownSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Where Debian puts the servers it packages. */
const SERVERS = "/usr/lib/postgresql";
const SHARED = "/usr/share/postgresql";
/** `nobody` on Debian: PostgreSQL refuses to run as root. */
const NOBODY = 65534;

/** Newest packaged PostgreSQL that has PostGIS beside it, or why there is none to test against. */
export function findServer(): { binaries: string } | { reason: string } {
  const versions = existsSync(SERVERS) ? readdirSync(SERVERS).sort((a, b) => Number(b) - Number(a)) : [];
  const usable = versions.find(
    (version) =>
      existsSync(join(SERVERS, version, "bin/initdb")) &&
      existsSync(join(SHARED, version, "extension/postgis.control")),
  );
  return usable === undefined
    ? { reason: "PostgreSQL with PostGIS is not installed (Debian: postgresql-15-postgis-3)" }
    : { binaries: join(SERVERS, usable, "bin") };
}

/** A server of the test's own, with a database `city` that has PostGIS; reached by a socket in a temporary folder, on no network. */
export interface TestServer {
  /** `postgres:///city?host=FOLDER&user...` up to and without further members. */
  readonly address: string;
  /** Rows of a statement, by psql, as an independent reader; cells joined by `|`. */
  readonly query: (sql: string, database?: string) => string[];
  readonly stop: () => Promise<void>;
}

export async function startServer(binaries: string): Promise<TestServer> {
  const home = mkdtempSync(join(tmpdir(), "pg-"));
  const isRoot = process.getuid?.() === 0;
  const identity = isRoot ? { uid: NOBODY, gid: NOBODY } : {};
  const folder = join(home, "data");
  mkdirSync(folder, { mode: 0o700 });
  if (isRoot) for (const one of [home, folder]) chownSync(one, NOBODY, NOBODY);
  const environment = { PATH: process.env.PATH ?? "", LC_ALL: "C", HOME: home };
  const made = spawnSync(
    join(binaries, "initdb"),
    ["-D", folder, "-U", "tester", "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync"],
    { ...identity, env: environment, encoding: "utf8" },
  );
  if (made.status !== 0) throw new Error(`initdb: ${made.stderr}`);
  const server = spawn(
    join(binaries, "postgres"),
    ["-D", folder, "-k", home, "-c", "listen_addresses=", "-c", "fsync=off", "-c", "logging_collector=off"],
    { ...identity, env: environment, stdio: ["ignore", "ignore", "pipe"] },
  );
  let log = "";
  server.stderr.on("data", (chunk: Buffer) => {
    log += chunk.toString();
  });
  const query = (sql: string, database = "city"): string[] => {
    const ran = spawnSync(
      join(binaries, "psql"),
      ["-h", home, "-U", "tester", "-d", database, "-X", "-A", "-t", "-q", "-v", "ON_ERROR_STOP=1", "-f", "-"],
      { env: environment, encoding: "utf8", input: sql, maxBuffer: 1 << 28 },
    );
    if (ran.status !== 0) throw new Error(`psql: ${ran.stderr}`);
    return ran.stdout.split("\n").filter((line) => line !== "");
  };
  await untilReady(
    () => query("SELECT 1", "postgres"),
    server,
    () => log,
  );
  query("CREATE DATABASE city", "postgres");
  query("CREATE EXTENSION postgis");
  return {
    address: `postgres://tester@/city?host=${encodeURIComponent(home)}`,
    query,
    stop: async () => {
      await ended(server);
      rmSync(home, { recursive: true, force: true });
    },
  };
}

async function untilReady(ask: () => unknown, server: ChildProcess, log: () => string): Promise<void> {
  for (let attempt = 0; attempt < 200; attempt += 1) {
    if (server.exitCode !== null) break;
    try {
      ask();
      return;
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
  await ended(server);
  throw new Error(`PostgreSQL did not start: ${log()}`);
}

/** Fast shutdown (SIGINT): connections are ended, the server exits. */
async function ended(server: ChildProcess): Promise<void> {
  if (server.exitCode !== null || server.pid === undefined) return;
  const exit = new Promise((resolve) => server.once("exit", resolve));
  process.kill(server.pid, "SIGINT");
  await exit;
}
