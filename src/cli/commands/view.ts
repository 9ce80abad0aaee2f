import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Command } from "commander";
import { usageError } from "../exit-codes.ts";
import { readCurrent } from "../folder/read-current.ts";
import { currentSource } from "../folder-source.ts";
import { serveFolders } from "../server/static-server.ts";

const APP = fileURLToPath(new URL("../../../dist/app/", import.meta.url));

/** Adds `boughline view DIR`: the app on that plan, on this machine's loopback address only. */
export function addView(program: Command): void {
  program
    .command("view")
    .description("Show a plan in the browser; served on this machine only, until stopped with Ctrl-C")
    .argument("<dir>", "plan folder")
    .option("--port <n>", "port on the loopback address; 0 takes a free one", "4173")
    .action(async (dir: string, options: { port: string }) => {
      const address = await view(dir, Number(options.port));
      process.stdout.write(`Boughline is at ${address} (stop with Ctrl-C)\n`);
    });
}

/** Serves the app on a plan folder and gives the address. Builds the app first where it was not built yet. */
export async function view(dir: string, port: number): Promise<string> {
  if (!Number.isInteger(port) || port < 0 || port > 65535) throw usageError("--port takes a number from 0 to 65535.");
  await currentSource(dir);
  if (!existsSync(`${APP}index.html`)) await buildApp();
  const mounts = [
    { path: "/", folder: APP },
    // Looked up at each request, so that a revision made meanwhile shows on the next reload.
    { path: "/plan/current/", folder: () => readCurrent(dir) },
  ];
  try {
    return (await serveFolders(mounts, port)).address;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EADDRINUSE") throw error;
    return (await serveFolders(mounts, 0)).address;
  }
}

/** Builds the page into `dist/app`. */
export async function buildApp(): Promise<void> {
  process.stderr.write("Building the page ...\n");
  const { build } = await import("vite");
  const root = fileURLToPath(new URL("../../../", import.meta.url));
  await build({ configFile: `${root}vite.config.ts`, logLevel: "warn" });
}
