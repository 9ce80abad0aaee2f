import { JsonScanner } from "../json/json-scanner.ts";
import { isKey } from "../json/key-text.ts";
import { utf8Text } from "../json/utf8-text.ts";

/** Ids of the plan's trees in order, from the bytes of `prescriptions.jsonl`. Throws JsonShapeError on a line that is none of ours. */
export function treeIds(prescriptions: Uint8Array): string[] {
  const ids: string[] = [];
  let start = 0;
  while (start < prescriptions.length) {
    const newline = prescriptions.indexOf(0x0a, start);
    const end = newline === -1 ? prescriptions.length : newline;
    if (end > start) ids.push(treeId(prescriptions, start, end));
    start = end + 1;
  }
  return ids;
}

function treeId(bytes: Uint8Array, start: number, end: number): string {
  let id = "";
  const scanner = new JsonScanner(bytes, start, end);
  const skip = (): void => scanner.skipValue();
  scanner.walkObject((keyStart, keyEnd) => {
    if (!isKey(bytes, keyStart, keyEnd, "tree")) {
      skip();
      return;
    }
    scanner.walkObject((innerStart, innerEnd) => {
      const valueStart = scanner.at;
      skip();
      if (isKey(bytes, innerStart, innerEnd, "id")) id = JSON.parse(utf8Text(bytes, valueStart, scanner.at)) as string;
    });
  });
  return id;
}
