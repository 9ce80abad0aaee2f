import type { Server } from "node:http";
import { fileURLToPath } from "node:url";
import { serveFolders } from "../../src/cli/server/static-server.ts";

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/**
 * Serves the example pages from the loopback address as any static host would: the pages, the built plugin, the map library as it was
 * published, and the revision of a plan. Port 0 takes a free one.
 */
export async function serveExamples(
  folders: { readonly plan: string; readonly plugin: string },
  port: number,
): Promise<{ server: Server; address: string }> {
  return serveFolders(
    [
      { path: "/", folder: here(".") },
      { path: "/plugin/", folder: folders.plugin },
      { path: "/maplibre/", folder: here("../../node_modules/maplibre-gl/dist") },
      { path: "/fonts/", folder: here("../../node_modules/@fontsource/source-sans-3/files") },
      { path: "/plan/current/", folder: folders.plan },
    ],
    port,
  );
}
