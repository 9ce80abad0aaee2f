import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { styleFiles } from "../src/map/style-files.ts";

for (const [name, text] of styleFiles()) writeFileSync(fileURLToPath(new URL(name, import.meta.url)), text);
