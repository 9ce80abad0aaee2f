import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Command } from "commander";
import { planTiles } from "../../map/tiles/plan-tiles.ts";
import { TILES_FILE } from "../../map/tiles/tile-layers.ts";
import { fileOnDisk } from "../folder/file-on-disk.ts";
import { FolderLock } from "../folder/folder-lock.ts";
import { writeFileAtomic } from "../folder/write-file-atomic.ts";
import { currentSource } from "../folder-source.ts";
import { printable } from "../printable.ts";
import { progressLine } from "../progress-line.ts";

/** Adds `boughline tiles DIR`: map tiles of a plan that is there, for maps of very many trees. */
export function addTiles(program: Command): void {
  program
    .command("tiles")
    .description("Write plan.pmtiles, map tiles of the plan, so that a map reads only what it looks at")
    .argument("<dir>", "plan folder")
    .option("--out <file>", "write to this file; into the plan's current revision when left out")
    .action(tiles);
}

/**
 * Runs `tiles`: reads the current revision's files a piece at a time. The revision stays as it is but for this one file, which follows from the others.
 * Throws CommandError where there is no plan, CannotWriteError where the file cannot be written or another run holds the folder.
 */
export async function tiles(dir: string, { out }: { readonly out?: string }): Promise<void> {
  const { path } = await currentSource(dir);
  const lock = out === undefined ? await FolderLock.take(dir) : null;
  const open = new Map<string, ReturnType<typeof fileOnDisk>>();
  const progress = progressLine(process.stderr);
  try {
    const file = (name: string) => {
      const known = open.get(name) ?? fileOnDisk(join(path, name));
      open.set(name, known);
      return known;
    };
    const pieces = planTiles(file, (share) => progress.report(share, "Cutting tiles"));
    const target = out ?? join(path, TILES_FILE);
    const isNew = !existsSync(target);
    await writeFileAtomic(target, pieces);
    progress.done();
    const bytes = pieces.reduce((sum, piece) => sum + piece.length, 0);
    process.stdout.write(
      printable(`${isNew ? "Written" : "Written anew"}: ${target} (${(bytes / 1e6).toFixed(1)} MB)\n`),
    );
  } finally {
    progress.done();
    for (const one of open.values()) one.close();
    lock?.release();
  }
}
