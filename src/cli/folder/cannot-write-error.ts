/** Why a folder or file could not be written. */
export type CannotWriteCause =
  | "existing-plan"
  | "not-a-folder"
  | "link"
  | "holds-inputs"
  | "foreign-names"
  | "locked"
  | "no-space"
  | "read-only"
  | "forbidden"
  | "failed";

/** Nothing was changed, or what was there is whole; the message says in one plain line what is in the way and what to do. */
export class CannotWriteError extends Error {
  override readonly name = "CannotWriteError";
  constructor(
    readonly why: CannotWriteCause,
    readonly path: string,
    message: string,
  ) {
    super(message);
  }
}

/** The error for a failed system call on `path`, for which `bytesNeeded` were to be written so far; errors that are not of the system are returned as they are. */
export function asCannotWrite(error: unknown, path: string, bytesNeeded = 0): unknown {
  if (error instanceof CannotWriteError || !(error instanceof Error)) return error;
  const { code, syscall } = error as NodeJS.ErrnoException;
  if (code === undefined || syscall === undefined) return error;
  switch (code) {
    case "ENOSPC":
    case "EDQUOT":
      return new CannotWriteError(
        "no-space",
        path,
        `${path}: no space left; at least ${bytesNeeded} bytes are needed. Free some space, or choose another folder.`,
      );
    case "EROFS":
      return new CannotWriteError("read-only", path, `${path} is on a read-only disk. Choose another folder.`);
    case "EACCES":
    case "EPERM":
      return new CannotWriteError("forbidden", path, `${path} may not be written by this user. Choose another folder.`);
    case "ENOTDIR":
      return new CannotWriteError(
        "not-a-folder",
        path,
        `${path}: a part of this path is a file. Choose another folder.`,
      );
    default:
      return new CannotWriteError("failed", path, `${path} could not be written (${code} in ${syscall}).`);
  }
}
