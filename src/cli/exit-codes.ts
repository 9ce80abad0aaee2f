/** What the command's exit code means; the list is part of the promise in the README. */
export const EXIT = {
  done: 0,
  findings: 1,
  usage: 2,
  inputRefused: 3,
  cannotWrite: 5,
  internalFault: 70,
} as const;

/** A fault with a plain message for the person at the terminal and the exit code it ends with. */
export class CommandError extends Error {
  readonly exitCode: number;
  constructor(exitCode: number, message: string) {
    super(message);
    this.exitCode = exitCode;
  }
}

export const usageError = (message: string): CommandError => new CommandError(EXIT.usage, message);
export const inputError = (message: string): CommandError => new CommandError(EXIT.inputRefused, message);
export const writeError = (message: string): CommandError => new CommandError(EXIT.cannotWrite, message);
