import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { styleFiles } from "../src/map/style-files.ts";

const path = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

// Pictures of marks that are no longer made would stay behind.
rmSync(path("sld"), { recursive: true, force: true });
mkdirSync(path("sld"));
for (const [name, content] of styleFiles()) writeFileSync(path(name), content);
