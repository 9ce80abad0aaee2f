import { fileURLToPath } from "node:url";
import { buildPlugin, writeTypes } from "./build-plugin.ts";

const folder = fileURLToPath(new URL("../../../dist/plugin", import.meta.url));
const bytes = await buildPlugin(folder);
writeTypes(folder);
for (const [name, size] of Object.entries(bytes))
  console.log(`dist/plugin: ${name} is ${(size / 1000).toFixed(1)} kB gzipped, without the map library`);
