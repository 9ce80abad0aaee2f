import type { Zone } from "../../model/zone.ts";
import { chosenTrees } from "./chosen-trees.ts";
import { freshZone } from "./fresh-zone.ts";
import { guardFinding } from "./guard-finding.ts";
import { leftOutFindings } from "./left-out-findings.ts";
import { NOTHING_CHOSEN } from "./nothing-chosen.ts";
import { cleanName, nameFinding } from "./rename-zone.ts";
import { sharing } from "./share-fault.ts";
import { unknownZone } from "./unknown-zone.ts";
import { withoutTrees } from "./without-trees.ts";
import { stopsOf, type ZoneDesk } from "./zone-desk.ts";
import type { EditOf, ZoneEdit } from "./zone-edit.ts";
import type { Outcome } from "./zone-edit-result.ts";
import { zoneRemarks } from "./zone-remarks.ts";
import { inserted, zoneWith } from "./zone-with.ts";

/**
 * Zones with trees in a new zone or in one that is there: as many of them as may be in one zone ({@link sharing}), each of the others with a finding
 * that says why it was left out and how it can be taken in. Refused where none is left.
 */
export function placeTrees(desk: ZoneDesk, zones: readonly Zone[], edit: EditOf<"make" | "add">): Outcome {
  const own = edit.kind === "add" ? (zones.find(({ zoneId }) => zoneId === edit.zoneId) ?? null) : null;
  if (edit.kind === "add" && own === null) return unknownZone(edit.zoneId);
  const guard = own === null ? null : guardFinding([own], edit);
  if (guard !== null) return { refused: [guard] };
  const name = edit.kind === "make" ? edit.name : undefined;
  const misnamed = name === undefined ? null : nameFinding(name, null, zones, (mended) => ({ ...edit, name: mended }));
  if (misnamed !== null) return { refused: [misnamed] };

  const allow = edit.allow ?? [];
  const chosen = chosenTrees(desk, zones, edit.trees, allow, own);
  const ownStops = own === null ? [] : stopsOf(desk, own);
  const limits = { mayRaiseCrew: allow.includes("raise-crew"), asked: own?.askedWindow ?? null };
  const { together, apart } = sharing(ownStops, chosen.stops, limits);
  const added = together.slice(ownStops.length);
  if (added.length === 0) {
    const again: Again = (trees, allowed) => ({ ...edit, trees, allow: allowed });
    const findings = leftOutFindings(chosen, apart, { zones, allow, zone: null, again });
    if (own !== null && findings.length > 0 && findings.every(({ code }) => code === "already-in-zone"))
      return { zones, findings };
    return { refused: findings.length > 0 ? findings : [NOTHING_CHOSEN] };
  }

  const taken = withoutTrees(desk, zones, added);
  const ordered = own?.isHandOrdered === true ? inserted(desk, ownStops, added) : together;
  const identity = own ?? {
    ...freshZone(desk, added, zones),
    ...(name === undefined ? {} : { name: cleanName(name) }),
  };
  const zone = zoneWith(desk, identity, ordered);
  const next =
    own === null ? [...taken.zones, zone] : taken.zones.map((one) => (one.zoneId === zone.zoneId ? zone : one));
  const again: Again = (trees, allowed) => ({ kind: "add", zoneId: zone.zoneId, trees, allow: allowed });
  return {
    zones: next,
    findings: [
      ...leftOutFindings(chosen, apart, { zones: next, allow, zone, again }),
      ...taken.findings,
      ...zoneRemarks(desk, zone, own),
    ],
  };
}

type Again = (trees: EditOf<"make">["trees"], allow: NonNullable<EditOf<"make">["allow"]>) => ZoneEdit;
