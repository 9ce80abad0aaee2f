import { createReadStream } from "node:fs";
import { readFile, realpath, stat } from "node:fs/promises";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname, join, sep } from "node:path";
import { askedRange } from "./asked-range.ts";
import { withPolicy } from "./content-policy.ts";

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
  ".pmtiles": "application/vnd.pmtiles",
};

/** A folder on disk, a text, or a place that takes something, at a path of the site. */
export type Mount = FolderMount | TextMount | TakeMount;

export interface FolderMount {
  /** Ends with a slash, for example `/plan/current/`. */
  readonly path: string;
  /** The folder, or what gives it at each request: null answers "not found". */
  readonly folder: string | (() => Promise<string | null>);
}

export interface TextMount {
  /** The whole path, for example `/config.json`; its ending decides the type. */
  readonly path: string;
  /** The text, or what gives it at each request. */
  readonly text: string | (() => Promise<string>);
}

/** Takes POST requests at one path. Who may send them is checked there: the server itself only makes sure of the host and the origin. */
export interface TakeMount {
  readonly path: string;
  readonly take: (request: IncomingMessage) => Promise<TakeAnswer>;
}

/** What a POST is answered with, as JSON. */
export interface TakeAnswer {
  readonly status: number;
  readonly body: object;
}

/**
 * A server of folders on this machine's loopback address. Longest mount first. Answers only GET and HEAD, and POST where a mount takes it from
 * the page's own origin; only requests addressed to a loopback host name (a page elsewhere that points its own name here gets 403), and only files that
 * really lie inside the mounted folder; one range of a file's bytes where it is asked for. With a content policy, every answer carries it and every page's own is replaced by it. Resolves with the server and
 * its address once it listens; port 0 takes a free one.
 */
export async function serveFolders(
  mounts: readonly Mount[],
  port: number,
  policy: string | null = null,
): Promise<{ server: Server; address: string }> {
  const byLength = [...mounts].sort((a, b) => b.path.length - a.path.length);
  const server = createServer((request, response) => {
    answer(byLength, policy, request, response).catch(() => {
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

async function answer(
  mounts: readonly Mount[],
  policy: string | null,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const isPost = request.method === "POST";
  if (!isPost && request.method !== "GET" && request.method !== "HEAD") return refuse(response, 405);
  const host = (request.headers.host ?? "").replace(/:\d+$/, "");
  if (host !== "127.0.0.1" && host !== "localhost" && host !== "[::1]") return refuse(response, 403);
  const site = request.headers["sec-fetch-site"];
  if (site === "cross-site") return refuse(response, 403);
  let path: string;
  try {
    path = decodeURIComponent(new URL(request.url ?? "/", "http://127.0.0.1").pathname);
  } catch {
    return refuse(response, 400);
  }
  if (path.includes("\0")) return refuse(response, 400);
  const mount = mounts.find((one) => ("folder" in one ? path.startsWith(one.path) : path === one.path));
  if (mount === undefined) return refuse(response, 404);
  if (isPost || "take" in mount) {
    if (!isPost || !("take" in mount)) return refuse(response, 405);
    if (!isFromOwnPage(request)) return refuse(response, 403);
    const { status, body } = await mount.take(request);
    response.writeHead(status, { "Content-Type": "application/json", "Cache-Control": "no-store", ...SAFE_HEADERS });
    response.end(JSON.stringify(body));
    return;
  }
  const content = await contentOf(mount, path, policy);
  if (content === null) return refuse(response, 404);
  const range = content.text === null ? askedRange(request.headers.range, content.size) : "whole";
  if (range === "beyond") {
    response.writeHead(416, { "Content-Range": `bytes */${content.size}`, ...SAFE_HEADERS });
    response.end();
    return;
  }
  const { from, to } = range === "whole" ? { from: 0, to: content.size } : range;
  response.writeHead(range === "whole" ? 200 : 206, {
    "Content-Type": TYPES[extname(content.name)] ?? "application/octet-stream",
    "Content-Length": content.text === null ? to - from : Buffer.byteLength(content.text),
    ...(content.text === null ? { "Accept-Ranges": "bytes" } : {}),
    ...(range === "whole" ? {} : { "Content-Range": `bytes ${from}-${to - 1}/${content.size}` }),
    "Cache-Control": "no-cache",
    ...SAFE_HEADERS,
    ...(policy === null ? {} : { "Content-Security-Policy": `${policy}; frame-ancestors 'none'` }),
  });
  if (request.method === "HEAD" || content.text !== null) {
    response.end(request.method === "HEAD" ? undefined : content.text);
    return;
  }
  createReadStream(content.name, to > from ? { start: from, end: to - 1 } : {})
    .on("error", () => response.destroy())
    .pipe(response);
}

const SAFE_HEADERS = {
  "X-Content-Type-Options": "nosniff",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Referrer-Policy": "no-referrer",
} as const;

/** Whether a request comes from a page of this very address, port included: browsers send where a POST comes from, and a page cannot lie about it. */
function isFromOwnPage(request: IncomingMessage): boolean {
  const { origin, host } = request.headers;
  const site = request.headers["sec-fetch-site"];
  return host !== undefined && origin === `http://${host}` && (site === undefined || site === "same-origin");
}

/** What a mount has at a path: a file to be streamed, or a text; null for neither. */
async function contentOf(
  mount: FolderMount | TextMount,
  path: string,
  policy: string | null,
): Promise<{ readonly name: string; readonly size: number; readonly text: string | null } | null> {
  if ("text" in mount) {
    const text = typeof mount.text === "string" ? mount.text : await mount.text();
    return { name: mount.path, size: 0, text };
  }
  const folder = typeof mount.folder === "string" ? mount.folder : await mount.folder();
  const file = folder === null ? null : await fileInside(folder, path.slice(mount.path.length) || "index.html");
  if (file === null) return null;
  const isPage = policy !== null && extname(file) === ".html";
  if (isPage) return { name: file, size: 0, text: withPolicy(await readFile(file, "utf8"), policy) };
  return { name: file, size: (await stat(file)).size, text: null };
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
