import { rename, symlink } from "node:fs/promises";
import { join } from "node:path";
import { CURRENT, pointerText } from "./read-current.ts";
import { temporaryName } from "./temporary-name.ts";
import { flushFolder, writeDurably } from "./write-durably.ts";

/** How a pointer is made: a link, or a one-line file where links cannot be made. */
export type MakeLink = (target: string, path: string) => Promise<void>;

/** Answers of systems and disks on which links cannot be made (Windows without the right, FAT). */
const NO_LINKS: ReadonlySet<string> = new Set(["EPERM", "ENOSYS", "ENOTSUP", "EOPNOTSUPP", "EINVAL"]);

/** Leads `current` to a revision by one rename; whoever reads it finds the old revision or the new one. */
export async function switchCurrent(dir: string, revision: number, makeLink: MakeLink = symlink): Promise<void> {
  const beside = join(dir, temporaryName());
  try {
    await makeLink(pointerText(revision), beside);
  } catch (error) {
    if (!NO_LINKS.has((error as NodeJS.ErrnoException).code ?? "")) throw error;
    await writeDurably(beside, `${pointerText(revision)}\n`);
  }
  await rename(beside, join(dir, CURRENT));
  await flushFolder(dir);
}
