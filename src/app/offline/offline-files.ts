/** What the build puts in: the page's files, by names relative to it, and a digest of their names and contents. */
declare const __OFFLINE_FILES__: { readonly version: string; readonly files: readonly string[] };

export const OFFLINE_FILES =
  typeof __OFFLINE_FILES__ === "undefined" ? { version: "none", files: [] as readonly string[] } : __OFFLINE_FILES__;

/** Where a request is answered from. */
export type Answer =
  | { readonly from: "cache"; readonly file: string }
  /** From the server, and without one with a text that says there is nothing. */
  | { readonly from: "network-or"; readonly text: string }
  | { readonly from: "network" };

/**
 * Where a GET is answered from, for a page at `root`. The page's own files come from the cache, whatever a link holds behind `?` and `#`. Settings and a served plan come from the
 * server, since they can change; without one the page opens empty and plans kept in the browser are at hand. All else, such as a base map, is not looked at.
 */
export function answerFor(
  address: string,
  root: string,
  isNavigation: boolean,
  files: readonly string[] = OFFLINE_FILES.files,
): Answer {
  const { origin, pathname } = new URL(address);
  const base = new URL(root);
  if (origin !== base.origin || !pathname.startsWith(base.pathname)) return { from: "network" };
  const name = decodeURIComponent(pathname.slice(base.pathname.length));
  if (name === "" || name === "index.html")
    return isNavigation ? { from: "cache", file: "index.html" } : { from: "network" };
  if (name === "config.json") return { from: "network-or", text: "{}" };
  if (name === "plan/current/plan.json") return { from: "network-or", text: "null" };
  return files.includes(name) ? { from: "cache", file: name } : { from: "network" };
}
