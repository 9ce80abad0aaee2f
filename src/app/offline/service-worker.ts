/// <reference lib="webworker" />
import { answerFor, OFFLINE_FILES } from "./offline-files.ts";

declare const self: ServiceWorkerGlobalScope;

const ROOT = new URL("./", self.location.href);
/** Pages at other paths of one server have caches of their own. */
const CACHES = `boughline-page ${ROOT.pathname} `;
/** One cache a version: a page keeps the files it was opened with, and a later version never mixes in. */
const CACHE = `${CACHES}${OFFLINE_FILES.version}`;

self.addEventListener("install", (event) => {
  // Whole or not at all: one file that cannot be had leaves the version before in place.
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(OFFLINE_FILES.files.map(freshly))));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(Promise.all([self.clients.claim(), forgetOtherVersions()]));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET") return;
  const answer = answerFor(request.url, ROOT.href, request.mode === "navigate");
  if (answer.from === "cache") event.respondWith(fromCache(answer.file, request));
  else if (answer.from === "network-or") event.respondWith(networkOr(request, answer.text));
});

/** Past the browser's own cache, which may hold files of another version. */
const freshly = (file: string): Request => new Request(new URL(file, ROOT), { cache: "reload" });

async function forgetOtherVersions(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(
    names.filter((name) => name.startsWith(CACHES) && name !== CACHE).map((name) => caches.delete(name)),
  );
}

async function fromCache(file: string, request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  // A browser short of room may have dropped it.
  return (await cache.match(new URL(file, ROOT).href)) ?? fetch(request);
}

async function networkOr(request: Request, text: string): Promise<Response> {
  try {
    return await fetch(request);
  } catch {
    return new Response(text, { headers: { "content-type": "application/json" } });
  }
}
