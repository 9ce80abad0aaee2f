import type { Zone } from "../../model/zone.ts";
import { guardFinding } from "./guard-finding.ts";
import { unknownZone } from "./unknown-zone.ts";
import type { EditOf, ZoneEdit } from "./zone-edit.ts";
import type { Outcome, ZoneEditFinding } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";

/** Longest name of a zone, in characters. */
const MOST_CHARACTERS = 60;

/** A name without spaces around it and with single ones inside. */
export const cleanName = (name: string): string => name.trim().replace(/\s+/gu, " ");

/** A zone with another name. A zone that is locked is not renamed; one that a crew has is, with the remark that its packet has the old name. */
export function renameZone(zones: readonly Zone[], edit: EditOf<"rename">): Outcome {
  const zone = zones.find(({ zoneId }) => zoneId === edit.zoneId);
  if (zone === undefined) return unknownZone(edit.zoneId);
  const locked = zone.isLocked === true ? guardFinding([{ ...zone, state: "draft" }], edit) : null;
  const misnamed = nameFinding(edit.name, zone, zones, (name) => ({ ...edit, name }));
  if (locked !== null || misnamed !== null) return { refused: [locked ?? misnamed!] };
  const name = cleanName(edit.name);
  if (name === zone.name) return { zones, findings: [] };
  return {
    zones: zones.map((one) => (one === zone ? { ...zone, name } : one)),
    findings:
      zone.state === "draft"
        ? []
        : [
            zoneFinding({
              code: "packet-has-old-name",
              severity: "warning",
              zoneId: zone.zoneId,
              value: zone.name,
              reason: `The packet that was issued calls the zone ${zone.name}.`,
              whatToDo: "Tell the crew, or issue the packet again.",
            }),
          ],
  };
}

/** What is wrong with a name, with a name that is right; null where nothing is. */
export function nameFinding(
  asked: string,
  zone: Zone | null,
  zones: readonly Zone[],
  mended: (name: string) => ZoneEdit,
): ZoneEditFinding | null {
  const name = cleanName(asked);
  const printable = cleanName(name.replace(/\p{Cc}/gu, " "));
  const characters = [...printable];
  const short = characters.slice(0, MOST_CHARACTERS).join("").trim();
  const others = new Set(zones.filter((one) => one !== zone).map((one) => one.name));
  const said = (code: string, reason: string, whatToDo: string, better: string | null): ZoneEditFinding =>
    zoneFinding({
      code,
      severity: "error",
      zoneId: zone?.zoneId ?? null,
      value: asked,
      reason,
      whatToDo,
      mends: better === null ? [] : [{ label: `Call it ${better}`, edit: mended(better), when: "instead" }],
    });
  if (printable === "") return said("name-empty", "A zone needs a name that a crew can say.", "Give it one.", null);
  if (printable !== name || characters.length > MOST_CHARACTERS) {
    const reason = `A name has at most ${MOST_CHARACTERS} characters, all of them printable.`;
    return said("name-unfit", reason, "Shorten it.", freeName(short, others));
  }
  if (!others.has(name)) return null;
  const reason = `Another zone is called ${name}.`;
  return said("name-taken", reason, "Give it a name of its own.", freeName(name, others));
}

/** The name, or with the first number behind it that no other zone has. */
function freeName(name: string, others: ReadonlySet<string>): string {
  if (!others.has(name)) return name;
  for (let number = 2; ; number += 1) {
    const end = ` ${number}`;
    const numbered = [...name].slice(0, MOST_CHARACTERS - end.length).join("") + end;
    if (!others.has(numbered)) return numbered;
  }
}
