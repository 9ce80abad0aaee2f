import { type ExecFileSyncOptions, execFileSync, spawnSync } from "node:child_process";
import { chmodSync, chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { JOIN_M, type JoinInput } from "./join-by-own-index.ts";
import { type OutsideJoin, projectedJoin, sameEveryTime } from "./join-outside.ts";

/** Where Debian puts the programs of each major version. */
const VERSIONS = "/usr/lib/postgresql";

/**
 * The same join by PostGIS, tables loaded and indexed before the clock starts: a private cluster in a folder of its own, on a Unix socket, one process a
 * query. Null where Debian's packages are not there.
 */
export function joinByPostgis(join: JoinInput, runs: number): OutsideJoin | null {
  const version = existsSync(VERSIONS) ? readdirSync(VERSIONS).sort().at(-1) : undefined;
  if (version === undefined || !existsSync(`/usr/share/postgresql/${version}/extension/postgis.control`)) return null;
  const folder = mkdtempSync(path.join(os.tmpdir(), "boughline-postgis-"));
  const cluster = path.join(folder, "data");
  const as = { ...serverUser(folder), cwd: folder, encoding: "utf8", maxBuffer: 2 ** 30 } as const;
  const program = (name: string): string => path.join(VERSIONS, version, "bin", name);
  const quiet: ExecFileSyncOptions = { ...as, stdio: "ignore" };
  execFileSync(program("initdb"), ["-D", cluster, "--auth=trust", "--no-sync"], quiet);
  const settings = `-c listen_addresses= -c unix_socket_directories=${folder} -c fsync=off`;
  execFileSync(
    program("pg_ctl"),
    ["-D", cluster, "-w", "-l", path.join(folder, "log"), "-o", settings, "start"],
    quiet,
  );
  try {
    const args = ["-X", "-q", "-A", "-t", "-v", "ON_ERROR_STOP=1", "-h", folder, "postgres"];
    const { status, stdout, stderr } = spawnSync("psql", args, { ...as, input: script(projectedJoin(join), runs) });
    if (status !== 0) throw new Error(`psql ended with ${status}: ${stderr.slice(0, 500)}`);
    const sums = stdout.trim().split("\n").map(Number);
    const times = [...stderr.matchAll(/([\d.]+) s user, ([\d.]+) s system, ([\d.]+) s elapsed/g)];
    if (times.length !== runs || sums.length !== runs) throw new Error("Expected one sum and one time a run");
    return sameEveryTime(
      times.map(([, user, system, elapsed], at) => ({
        ...{ userMs: 1000 * Number(user), systemMs: 1000 * Number(system), wallMs: 1000 * Number(elapsed) },
        ...{ residentMB: null, sumM: sums[at]! },
      })),
    );
  } finally {
    execFileSync(program("pg_ctl"), ["-D", cluster, "-w", "-m", "immediate", "stop"], quiet);
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The server refuses to run as root, and then is run by the user its packages make; the folder becomes theirs. */
function serverUser(folder: string): { readonly uid?: number; readonly gid?: number } {
  if (process.getuid?.() !== 0) return {};
  const [uid, gid] = ["-u", "-g"].map((what) => Number(execFileSync("id", [what, "postgres"], { encoding: "utf8" })));
  chownSync(folder, uid!, gid!);
  chmodSync(folder, 0o700);
  return { uid: uid!, gid: gid! };
}

/** Tables, indexes and the query `runs` times; the server's own account of each goes to the client. */
function script({ trees, buildings }: JoinInput, runs: number): string {
  const point = ([x, y]: readonly number[]): string => `POINT(${x} ${y})`;
  const polygon = (ring: readonly (readonly number[])[]): string =>
    `POLYGON((${ring.map(([x, y]) => `${x} ${y}`).join(",")}))`;
  const query = `SELECT sum(near) FROM (SELECT min(ST_Distance(t.g, b.g)) near FROM trees t JOIN buildings b ON ST_DWithin(t.g, b.g, ${JOIN_M}) GROUP BY t.id) n;`;
  return [
    "SET client_min_messages = error; CREATE EXTENSION postgis; SET max_parallel_workers_per_gather = 0;",
    "CREATE TABLE trees (id serial, g geometry); CREATE TABLE buildings (id serial, g geometry);",
    ...["COPY trees (g) FROM stdin;", ...trees.map(point), "\\."],
    ...["COPY buildings (g) FROM stdin;", ...buildings.map(polygon), "\\."],
    "CREATE INDEX ON trees USING gist (g); CREATE INDEX ON buildings USING gist (g); VACUUM ANALYZE;",
    "SET client_min_messages = log; SET log_executor_stats = on;",
    ...Array.from({ length: runs }, () => query),
    "",
  ].join("\n");
}
