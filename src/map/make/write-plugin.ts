import { fileURLToPath } from "node:url";
import { buildPlugin, writeTypes } from "./build-plugin.ts";

const folder = fileURLToPath(new URL("../../../dist/plugin", import.meta.url));
const bytes = await buildPlugin(folder);
writeTypes(folder);
console.log(`dist/plugin: boughline.js is ${(bytes / 1000).toFixed(1)} kB gzipped, without the map library`);
