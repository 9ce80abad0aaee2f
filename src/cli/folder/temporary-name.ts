import { randomBytes } from "node:crypto";

const PREFIX = ".boughline-";

/** A name for something not finished yet, used by nobody else. */
export const temporaryName = (): string => `${PREFIX}${process.pid}-${randomBytes(6).toString("hex")}`;

/** Whether a name is one of ours for something not finished; what bears it may be removed once its maker is gone. */
export const isTemporaryName = (name: string): boolean => name.startsWith(PREFIX);
