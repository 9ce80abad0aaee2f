import { readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import type { Plan } from "../core/model/plan.ts";
import { type PackedFiles, type PacketsIndex, packetsIndex } from "../core/packet/index/packets-index.ts";
import { drawZonesMap } from "../core/packet/index/zones-map.ts";
import type { PacketFile } from "../core/packet/packet-manifest.ts";
import type { BuiltPacket } from "../formats/packet/build-packet.ts";
import { indexHtml } from "../formats/packet/index/index-html.ts";
import { sha256 } from "../formats/sha256.ts";
import { writeFileAtomic } from "./folder/write-file-atomic.ts";

/** Writes a packet's zip into a folder, and its sheets and phone page beside it under the same name; answers what was written. */
export async function writePacket(folder: string, packet: BuiltPacket): Promise<PackedFiles> {
  const stem = packet.name.replace(/\.zip$/, "");
  const written = async (name: string, bytes: Uint8Array): Promise<PacketFile> => {
    await writeFileAtomic(join(folder, name), bytes);
    return { name, bytes: bytes.length, sha256: await sha256(bytes) };
  };
  const sheets = await written(`${stem}.pdf`, packet.sheets);
  const phone = await written(`${stem}.html`, packet.phone);
  return { packet: await written(packet.name, packet.bytes), sheets, phone };
}

/**
 * Writes `index.json` and `index.html` of a folder's packets, each whole or not at all. Packets that an earlier run of the same revision listed stay
 * listed while their files are there in their size. Throws CannotWriteError.
 */
export async function writePacketsIndex(
  folder: string,
  plan: Plan,
  written: ReadonlyMap<string, PackedFiles>,
): Promise<void> {
  const files = new Map([...(await listedBefore(folder, plan)), ...written]);
  const index = packetsIndex(plan, files);
  const zones = index.zones.map(({ zoneId }) => plan.zones.find((zone) => zone.zoneId === zoneId)!);
  await writeFileAtomic(join(folder, "index.json"), `${JSON.stringify(index, null, 2)}\n`);
  await writeFileAtomic(join(folder, "index.html"), await indexHtml(index, drawZonesMap(plan, zones)));
}

async function listedBefore(folder: string, { planId, revision }: Plan): Promise<Map<string, PackedFiles>> {
  const listed = new Map<string, PackedFiles>();
  const text = await readFile(join(folder, "index.json"), "utf8").catch(() => null);
  if (text === null) return listed;
  const before = parsed(text);
  if (before === null || before.planId !== planId || before.revision !== revision) return listed;
  for (const { zoneId, files } of before.zones) {
    const sizes = await Promise.all([files.packet, files.sheets, files.phone].map((file) => isThere(folder, file)));
    if (sizes.every(Boolean)) listed.set(zoneId, files);
  }
  return listed;
}

/** Null where the file is not an index of ours: then it is written anew. */
function parsed(text: string): PacketsIndex | null {
  try {
    const index = JSON.parse(text) as PacketsIndex;
    return index.format === "boughline-packets" && index.version === 1 ? index : null;
  } catch {
    return null;
  }
}

const isThere = async (folder: string, { name, bytes }: PacketFile): Promise<boolean> =>
  !/[\\/]/.test(name) && (await stat(join(folder, name)).catch(() => null))?.size === bytes;
