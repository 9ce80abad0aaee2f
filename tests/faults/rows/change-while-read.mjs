import { appendFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import promises from "node:fs/promises";
import { syncBuiltinESMExports } from "node:module";

// Loaded in front of the command: does something to the file named in BOUGHLINE_FAULT_FILE right after it was opened and its size was asked, as another
// program could. What is done stands in BOUGHLINE_FAULT_CHANGE. Plain JavaScript, as nothing in front of a bundled command translates TypeScript.
const target = process.env.BOUGHLINE_FAULT_FILE;
const change = process.env.BOUGHLINE_FAULT_CHANGE;
const open = promises.open;

promises.open = async (...args) => {
  const file = await open(...args);
  if (args[0] !== target) return file;
  const stat = file.stat.bind(file);
  let isDone = false;
  file.stat = async () => {
    const answer = await stat();
    if (!isDone) disturb();
    isDone = true;
    return answer;
  };
  return file;
};
syncBuiltinESMExports();

function disturb() {
  if (change === "append") appendFileSync(target, " ");
  else if (change === "cut") writeFileSync(target, "{");
  else if (change === "delete") rmSync(target);
  else if (change === "replace") {
    writeFileSync(`${target}.new`, '{"type":"FeatureCollection","features":[]}');
    renameSync(`${target}.new`, target);
  } else throw new TypeError(`Expected a known change, got ${change}`);
}
