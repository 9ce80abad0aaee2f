import { Command } from "commander";
import { addBudget } from "./commands/budget.ts";
import { addCheck } from "./commands/check.ts";
import { addEnrich } from "./commands/enrich.ts";
import { addPacket } from "./commands/packet.ts";
import { addRecord } from "./commands/record.ts";
import { addTiles } from "./commands/tiles.ts";
import { addView } from "./commands/view.ts";
import { addZone } from "./commands/zone.ts";

/** Told by a command which exit code its result deserves, when it is not 0. */
export type SetExit = (code: number) => void;

/** The command line: one subcommand a step of the job. Faults of usage throw CommanderError instead of ending the process. */
export function boughline(setExit: SetExit): Command {
  const program = new Command("boughline")
    .description(
      "Decides which trees beside streets, buildings and overhead lines to prune, how much, when, by whom and in what order.",
    )
    .version("0.1.0")
    .exitOverride()
    .configureOutput({ outputError: (text, write) => write(text.replace(/^error: /, "")) })
    .addHelpText(
      "after",
      "\nExit codes: 0 done, 1 findings reached --fail-on, 2 wrong usage, 3 input refused, 5 could not write, 70 internal fault." +
        "\nThe tool plans; local codes and licensed or line-clearance arborists decide.",
    );
  for (const add of [addEnrich, addCheck, addZone, addBudget, addPacket, addRecord, addTiles, addView])
    add(program, setExit);
  for (const command of program.commands) command.exitOverride();
  return program;
}
