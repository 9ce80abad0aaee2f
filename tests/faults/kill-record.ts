import { killRuns } from "./kill-runs.ts";

/** Kills `record` and `packet` at random moments while they write: `node --import tsx tests/faults/kill-record.ts [--kills 200] [--seed 1] [record|packet]`. */
const argument = (name: string, otherwise: number): number => {
  const at = process.argv.indexOf(name);
  return at < 0 ? otherwise : Number(process.argv[at + 1]);
};
const kills = argument("--kills", 200);
const seed = argument("--seed", 1);
const commands = (["record", "packet"] as const).filter(
  (one) => process.argv.includes(one) || !process.argv.some((word) => word === "record" || word === "packet"),
);

for (const command of commands) {
  const result = await killRuns(command, kills, seed, (so) => {
    if (so.kills % 20 === 0)
      process.stderr.write(`${command}: ${so.kills} runs, ${so.late} late, ${so.torn.length} torn\n`);
  });
  const { torn } = result;
  process.stdout.write(
    `${command}: ${result.kills} runs, ${result.kills - result.late} killed while writing, ${result.old} left the old state, ${result.new} the new, ${torn.length} torn (seed ${seed})\n`,
  );
  for (const sentence of torn) process.stdout.write(`  ${sentence}\n`);
  if (torn.length > 0) process.exitCode = 1;
}
