import { createHash } from "node:crypto";
import type { Plugin } from "vite";

/** Files that change without the page: never kept. */
const CHANGING = ["config.json", "plan/current/plan.json"];

/**
 * Adds `sw.js` to a build: the service worker with the list of the page's files and a digest of all of them in it, so that its bytes change when any file does.
 * `script` makes the worker's script with the given constant.
 */
export function offlinePlugin(
  script: (files: string) => Promise<string>,
  copied: () => ReadonlyMap<string, Uint8Array>,
): Plugin {
  return {
    name: "offline-page",
    apply: "build",
    enforce: "post",
    generateBundle: {
      order: "post",
      async handler(_, bundle) {
        const hash = createHash("sha256");
        const names: string[] = [];
        const contents = new Map<string, string | Uint8Array>(copied());
        for (const [name, part] of Object.entries(bundle))
          contents.set(name, part.type === "chunk" ? part.code : part.source);
        for (const [name, content] of [...contents].sort(([a], [b]) => (a < b ? -1 : 1))) {
          if (CHANGING.includes(name) || name.endsWith(".map")) continue;
          names.push(name);
          hash.update(name).update("\0").update(content);
        }
        const files = JSON.stringify({ version: hash.digest("hex").slice(0, 16), files: names });
        this.emitFile({ type: "asset", fileName: "sw.js", source: await script(files) });
      },
    },
  };
}
