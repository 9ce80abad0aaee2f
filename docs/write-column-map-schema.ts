import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { columnMapJsonSchema } from "../src/core/inventory/column-map-json-schema.ts";

const file = fileURLToPath(new URL("column-map.schema.json", import.meta.url));
writeFileSync(file, `${JSON.stringify(columnMapJsonSchema(), null, 2)}\n`);
