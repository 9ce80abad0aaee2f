import { createReadStream } from "node:fs";
import { realpath, stat } from "node:fs/promises";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname, join, sep } from "node:path";

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".jsonl": "application/x-ndjson",
  ".geojson": "application/geo+json",
  ".csv": "text/csv; charset=utf-8",
  ".woff2": "font/woff2",
  ".woff": "font/woff",
  ".ttf": "font/ttf",
  ".wasm": "application/wasm",
  ".zip": "application/zip",
  ".pdf": "application/pdf",
  ".svg": "image/svg+xml",
  ".png": "image/png",
};

/** A folder on disk that appears below a path of the site. */
export interface Mount {
  /** Ends with a slash, for example `/plan/current/`. */
  readonly path: string;
  /** The folder, or what gives it at each request: null answers "not found". */
  readonly folder: string | (() => Promise<string | null>);
}

/**
 * A read-only server of folders on this machine's loopback address. Longest mount first. Answers only GET and HEAD, only requests
 * addressed to a loopback host name (a page elsewhere that points its own name here gets 403), and only files that really lie inside
 * the mounted folder. Resolves with the server and its address once it listens; port 0 takes a free one.
 */
export async function serveFolders(
  mounts: readonly Mount[],
  port: number,
): Promise<{ server: Server; address: string }> {
  const byLength = [...mounts].sort((a, b) => b.path.length - a.path.length);
  const server = createServer((request, response) => {
    answer(byLength, request, response).catch(() => {
      if (!response.headersSent) response.writeHead(500);
      response.end();
    });
  });
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, "127.0.0.1", resolve);
  });
  const bound = server.address();
  const boundPort = typeof bound === "object" && bound !== null ? bound.port : port;
  return { server, address: `http://127.0.0.1:${boundPort}/` };
}

async function answer(mounts: readonly Mount[], request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (request.method !== "GET" && request.method !== "HEAD") return refuse(response, 405);
  const host = (request.headers.host ?? "").replace(/:\d+$/, "");
  if (host !== "127.0.0.1" && host !== "localhost" && host !== "[::1]") return refuse(response, 403);
  const origin = request.headers["sec-fetch-site"];
  if (origin === "cross-site") return refuse(response, 403);
  let path: string;
  try {
    path = decodeURIComponent(new URL(request.url ?? "/", "http://127.0.0.1").pathname);
  } catch {
    return refuse(response, 400);
  }
  if (path.includes("\0")) return refuse(response, 400);
  const mount = mounts.find((one) => path.startsWith(one.path));
  if (mount === undefined) return refuse(response, 404);
  const inside = path.slice(mount.path.length) || "index.html";
  const folder = typeof mount.folder === "string" ? mount.folder : await mount.folder();
  const file = folder === null ? null : await fileInside(folder, inside);
  if (file === null) return refuse(response, 404);
  const { size } = await stat(file);
  response.writeHead(200, {
    "Content-Type": TYPES[extname(file)] ?? "application/octet-stream",
    "Content-Length": size,
    "Cache-Control": "no-cache",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
  });
  if (request.method === "HEAD") {
    response.end();
    return;
  }
  createReadStream(file)
    .on("error", () => response.destroy())
    .pipe(response);
}

async function fileInside(folder: string, path: string): Promise<string | null> {
  try {
    const root = await realpath(folder);
    const file = await realpath(join(root, path));
    if (!file.startsWith(root + sep)) return null;
    return (await stat(file)).isFile() ? file : null;
  } catch {
    return null;
  }
}

function refuse(response: ServerResponse, status: number): void {
  response.writeHead(status, { "Content-Type": "text/plain; charset=utf-8", "X-Content-Type-Options": "nosniff" });
  response.end(`${status}\n`);
}
