/**
 * Writes the files of `tests/bad-input/` and their manifest from the cases beside this file.
 * Run from the repository's root: `node --import tsx tests/corpus/write-corpus.ts`.
 */
import { writeFileSync } from "node:fs";
import { caseFile } from "./case-files.ts";
import { CASES } from "./cases.ts";

const FOLDER = "tests/bad-input/";

const manifest = CASES.map((one) => {
  writeFileSync(`${FOLDER}${one.name}.geojson`, caseFile(one));
  return JSON.stringify({
    file: `${one.name}.geojson`,
    layer: one.layer,
    class: one.class,
    code: one.code,
    rule: one.rule,
  });
});
writeFileSync(`${FOLDER}manifest.json`, `[\n${manifest.join(",\n")}\n]\n`);
process.stdout.write(`${manifest.length} files\n`);
