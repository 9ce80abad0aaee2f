import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { completionJsonSchema } from "../src/core/plan/completion/completion-json-schema.ts";

const file = fileURLToPath(new URL("completion.schema.json", import.meta.url));
writeFileSync(file, `${JSON.stringify(completionJsonSchema(), null, 2)}\n`);
