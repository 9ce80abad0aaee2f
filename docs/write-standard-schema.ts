import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { standardJsonSchema } from "../src/core/standard/standard-json-schema.ts";

const file = fileURLToPath(new URL("standard.schema.json", import.meta.url));
writeFileSync(file, `${JSON.stringify(standardJsonSchema(), null, 2)}\n`);
