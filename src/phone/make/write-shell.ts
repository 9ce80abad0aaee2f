import { writeFileSync } from "node:fs";
import { phoneShell, shellText } from "./phone-shell.ts";

writeFileSync(new URL("../../formats/phone/phone-shell.json", import.meta.url), shellText(await phoneShell()));
