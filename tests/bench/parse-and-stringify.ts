import { readFileSync, writeFileSync } from "node:fs";

/**
 * The floor that runs are compared with: the layers' files through `JSON.parse`, the trees back through `JSON.stringify` and to disk. Nothing is
 * checked, measured or decided.
 */
const [trees, buildings, roads, out] = process.argv.slice(2) as [string, string, string, string];
const layers = [trees, buildings, roads].map((file) => JSON.parse(readFileSync(file, "utf8")) as unknown);
writeFileSync(out, JSON.stringify(layers[0]));
