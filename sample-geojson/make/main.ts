import { writeFileSync } from "node:fs";
import { sampleTown } from "./sample-town.ts";

const folder = new URL("../", import.meta.url);
for (const [name, text] of sampleTown()) {
  writeFileSync(new URL(name, folder), text);
  console.log(`${name}: ${text.split("\n").length - 3} features, ${(text.length / 1000).toFixed(0)} kB`);
}
