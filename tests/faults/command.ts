/** Arguments that start the command: from its source; or, much faster to start, from a bundle of it that `BOUGHLINE_CLI` names. */
export const COMMAND: readonly string[] =
  process.env.BOUGHLINE_CLI === undefined ? ["--import", "tsx", "src/cli/main.ts"] : [process.env.BOUGHLINE_CLI];
