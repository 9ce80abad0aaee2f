import { randomBytes } from "node:crypto";
import { existsSync } from "node:fs";
import type { Server } from "node:http";
import { basename, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import type { Command } from "commander";
import type { TreeField } from "../../formats/write/public-trees.ts";
import { usageError } from "../exit-codes.ts";
import { publicFields } from "../export-options.ts";
import { REVISIONS, readCurrent } from "../folder/read-current.ts";
import { currentSource } from "../folder-source.ts";
import { printable } from "../printable.ts";
import { contentPolicy } from "../server/content-policy.ts";
import { folderNow, takeRevision } from "../server/plan-desk.ts";
import { type Mount, serveFolders } from "../server/static-server.ts";
import { writeSite } from "../server/write-site.ts";

const APP = fileURLToPath(new URL("../../../dist/app/", import.meta.url));

/** Adds `boughline view DIR`: the app on that plan, on this machine's loopback address only. */
export function addView(program: Command): void {
  program
    .command("view")
    .description("Show a plan in the browser; served on this machine only, until stopped with Ctrl-C")
    .argument("<dir>", "plan folder")
    .option("--port <n>", "port on the loopback address; 0 takes a free one", "4173")
    .option("--basemap <url>", "a MapLibre style to draw the plan on; the page asks its server for it and its tiles")
    .option("--site <folder>", "write the page with the public plan into a new folder, for any web server, and stop")
    .option("--public-fields <fields>", "with --site: show these fields too, for example owner,address")
    .option("--read-only", "show the plan only; the page cannot save what is changed in it back to the folder")
    .action(async (dir: string, options: ViewArguments) => {
      const { basemap = null, readOnly: isReadOnly = false, site, publicFields: fields } = options;
      if (fields !== undefined && site === undefined) throw usageError("--public-fields needs --site.");
      if (site !== undefined) {
        await viewSite(dir, site, { basemap, chosen: publicFields(fields ?? "") });
        process.stdout.write(
          printable(
            `Written to ${site}: put the folder on a web server. It names streets and buildings as their layers do.\n`,
          ),
        );
        return;
      }
      const address = await view(dir, Number(options.port), { basemap, isReadOnly });
      process.stdout.write(`Boughline is at ${address} (stop with Ctrl-C)\n`);
    });
}

interface ViewArguments {
  readonly port: string;
  readonly basemap?: string;
  readonly readOnly?: boolean;
  readonly site?: string;
  readonly publicFields?: string;
}

/** Writes the page with the public plan, to be read only. Builds the app first where it was not built yet. */
export async function viewSite(
  dir: string,
  out: string,
  { basemap, chosen }: { readonly basemap: string | null; readonly chosen: readonly TreeField[] },
): Promise<void> {
  const origins = basemap === null ? [] : [originOf(basemap)];
  if (!existsSync(`${APP}index.html`)) await buildApp();
  await writeSite(dir, APP, out, { basemap, origins, chosen });
}

export interface ViewOptions {
  /** Address of a style; null for bare paper. The page may then ask that style's origin for things, and no other. */
  readonly basemap?: string | null;
  /** What the plan is called on the page. Default: its folder's name. */
  readonly name?: string;
  /** Whether the page may not save to the folder. Default: it may. */
  readonly isReadOnly?: boolean;
}

/** Serves the app on a plan folder and gives the address. Builds the app first where it was not built yet. */
export const view = async (dir: string, port: number, options: ViewOptions = {}): Promise<string> =>
  (await serveView(dir, port, options)).address;

/** As {@link view}, with the server, so that it can be closed. */
export async function serveView(
  dir: string,
  port: number,
  options: ViewOptions = {},
): Promise<{ readonly server: Server; readonly address: string }> {
  if (!Number.isInteger(port) || port < 0 || port > 65535) throw usageError("--port takes a number from 0 to 65535.");
  const basemap = options.basemap ?? null;
  const origins = basemap === null ? [] : [originOf(basemap)];
  await currentSource(dir);
  if (!existsSync(`${APP}index.html`)) await buildApp();
  // Made anew for each run and given to the page alone: no other page can read it, so none can save here.
  const saveToken = options.isReadOnly === true ? null : randomBytes(24).toString("base64url");
  const config = { basemap, name: options.name ?? basename(resolve(dir)), folder: { saveToken } };
  const mounts: Mount[] = [
    { path: "/", folder: APP },
    { path: "/config.json", text: JSON.stringify(config) },
    // Looked up at each request, so that a revision made meanwhile shows on the next reload.
    { path: "/plan/current/", folder: () => readCurrent(dir) },
    // By its number, so that a page which opened one revision never reads files of another.
    { path: "/plan/revisions/", folder: join(dir, REVISIONS) },
    { path: "/plan/folder.json", text: async () => JSON.stringify(await folderNow(dir)) },
    ...(saveToken === null ? [] : [{ path: "/plan/revisions", take: takeRevision(dir, saveToken) }]),
  ];
  const policy = contentPolicy(origins);
  try {
    return await serveFolders(mounts, port, policy);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EADDRINUSE") throw error;
    return await serveFolders(mounts, 0, policy);
  }
}

/** Origin of a style's address. Throws CommandError for anything but an http or https address. */
function originOf(basemap: string): string {
  const address = URL.canParse(basemap) ? new URL(basemap) : null;
  if (address === null || (address.protocol !== "https:" && address.protocol !== "http:"))
    throw usageError("--basemap takes the http or https address of a MapLibre style.");
  return address.origin;
}

/** Builds the page into `dist/app`. */
export async function buildApp(): Promise<void> {
  process.stderr.write("Building the page ...\n");
  const { build } = await import("vite");
  const root = fileURLToPath(new URL("../../../", import.meta.url));
  await build({ configFile: `${root}vite.config.ts`, logLevel: "error" });
}
