import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { Command } from "commander";
import { LANGUAGES, type Language } from "../../core/language/language.ts";
import type { PackedFiles } from "../../core/packet/index/packets-index.ts";
import { completeStandard } from "../../core/standard/complete-standard.ts";
import { buildPacket } from "../../formats/packet/build-packet.ts";
import { inspectPlan } from "../../formats/plan/inspect-plan.ts";
import { openPlan } from "../../formats/plan/open-plan.ts";
import { inputError, usageError } from "../exit-codes.ts";
import { writeFileAtomic } from "../folder/write-file-atomic.ts";
import { currentSource } from "../folder-source.ts";
import { loadFonts } from "../fonts.ts";
import { printable } from "../printable.ts";
import { progressLine } from "../progress-line.ts";
import { writePacket, writePacketsIndex } from "../write-packets-index.ts";

/** Options of `packet`. */
export interface PacketOptions {
  readonly zone?: string[];
  readonly paper?: string;
  readonly language?: string[];
  readonly inspect?: boolean;
  readonly out?: string;
}

/** Adds `boughline packet DIR`: one zip a zone for the crew, with an index for contractors. */
export function addPacket(program: Command): void {
  program
    .command("packet")
    .description(
      "Write a packet for each work zone: sheets to print, a page for the phone, GeoJSON, CSV, GPX and KML in one zip; and index.html with index.json to put on any web server",
    )
    .argument("<dir>", "plan folder with zones")
    .option("--zone <zone>", "only the zone of this id or name; may be repeated", (id: string, earlier?: string[]) => [
      ...(earlier ?? []),
      id,
    ])
    .option("--paper <letter|a4>", "paper of the sheets", "letter")
    .option(
      "--language <en|es>",
      "language of sheets and phone page; repeat it for packets in each",
      (language: string, earlier?: string[]) => [...(earlier ?? []), language],
    )
    .option("--inspect", "packets of rounds that look and measure before anybody is sent to cut, and inspect.csv")
    .option("--out <dir>", "where to write; the plan's own packets folder when left out")
    .action(packet);
}

/** Runs `packet`; each file is written whole or not at all, the index last. Throws CommandError when there are no zones. */
export async function packet(dir: string, options: PacketOptions): Promise<void> {
  const paper = options.paper ?? "letter";
  if (paper !== "letter" && paper !== "a4") throw usageError(`--paper takes letter or a4, got "${paper}".`);
  const languages = languagesOf(options.language ?? ["en"]);
  const source = await currentSource(dir);
  const { plan: opened } = await openPlan(source);
  const inspection = options.inspect === true ? await inspectPlan(source, opened) : null;
  if (inspection?.rounds.zones.length === 0) throw inputError("Nothing is to be inspected first.");
  const plan = inspection?.rounds ?? opened;
  if (plan.zones.length === 0) throw inputError(`${dir} has no work zones yet. Run "boughline zone ${dir}" first.`);
  const open = plan.zones.filter(({ visitIds }) => visitIds.length > 0);
  // Names are unique in a plan; people know zones by them.
  const idOf = new Map(plan.zones.map(({ name, zoneId }) => [name, zoneId]));
  const wanted = options.zone?.map((asked) => idOf.get(asked) ?? asked) ?? open.map((zone) => zone.zoneId);
  const zones = open.filter((zone) => wanted.includes(zone.zoneId));
  const unknown = wanted.filter((id) => !plan.zones.some((zone) => zone.zoneId === id));
  if (unknown.length > 0) throw usageError(`The plan has no zone ${unknown.join(", ")}.`);
  if (zones.length < wanted.length || zones.length === 0) {
    const done = wanted.filter((id) => !zones.some((zone) => zone.zoneId === id));
    throw usageError(
      `All work is done in ${done.length === 0 ? "every zone" : done.join(", ")}: there is nothing to send a crew for.`,
    );
  }
  const parsed = completeStandard(JSON.parse(new TextDecoder().decode((await source.read("standard.json"))!)));
  if ("faults" in parsed) throw inputError(`standard.json of the plan cannot be used: ${parsed.faults.join("; ")}`);
  const folder = options.out ?? join(source.path, "packets", ...(inspection === null ? [] : ["inspect"]));
  await mkdir(folder, { recursive: true });
  const fonts = await loadFonts();
  const progress = progressLine(process.stderr);
  const written = new Map<string, PackedFiles>();
  const notDrawn = new Set<string>();
  const notTranslated = new Set<string>();
  for (const [index, zone] of zones.entries()) {
    progress.report(index / zones.length, zone.name);
    const packed: [Language, PackedFiles][] = [];
    for (const language of languages) {
      const built = await buildPacket(plan, zone, parsed.standard, fonts, {
        paper,
        language,
        isInspection: inspection !== null,
      });
      packed.push([language, await writePacket(folder, built)]);
      for (const character of built.charactersNotDrawn) notDrawn.add(character);
      for (const clause of built.notTranslated) notTranslated.add(clause);
    }
    const [[, first], ...others] = packed as [[Language, PackedFiles], ...[Language, PackedFiles][]];
    written.set(zone.zoneId, others.length === 0 ? first : { ...first, inLanguage: Object.fromEntries(others) });
  }
  await writePacketsIndex(folder, plan, written);
  if (inspection !== null) await writeFileAtomic(join(folder, "inspect.csv"), inspection.csv);
  progress.done();
  process.stdout.write(
    printable(
      `${zones.length} ${zones.length === 1 ? "packet" : "packets"} written to ${folder}, listed in index.html there\n`,
    ),
  );
  if (notDrawn.size > 0) {
    process.stdout.write(
      printable(
        `The bundled fonts lack ${[...notDrawn].sort().join(", ")}: on paper each stands as a box; the other files have them.\n`,
      ),
    );
  }
  if (notTranslated.size > 0) {
    const some = [...notTranslated].slice(0, 3).map((clause) => `"${clause}"`);
    process.stdout.write(
      printable(
        `${notTranslated.size} ${notTranslated.size === 1 ? "clause stands" : "clauses stand"} in English, as no translation is known, for example ${some.join(", ")}. Each packet's manifest.json lists its own.\n`,
      ),
    );
  }
}

/** The languages asked for, each once. Throws CommandError for another. */
function languagesOf(asked: readonly string[]): Language[] {
  const unknown = asked.find((one) => !(LANGUAGES as readonly string[]).includes(one));
  if (unknown !== undefined) throw usageError(`--language takes ${LANGUAGES.join(" or ")}, got "${unknown}".`);
  return [...new Set(asked)] as Language[];
}
