import type { Language } from "../core/language/language.ts";
import type { Zone } from "../core/model/zone.ts";
import { completeStandard } from "../core/standard/complete-standard.ts";
import { usCommon } from "../core/standard/parse-standard.ts";
import type { Standard } from "../core/standard/standard.ts";
import type { BuiltPacket } from "../formats/packet/build-packet.ts";
import type { PlanSource } from "../formats/plan/plan-source.ts";
import type { PlanInHand } from "./plan-in-hand.ts";
import type { Paper } from "./sheet/zone-sheet.ts";

/** A zone's packet as one zip. What it takes is loaded when first asked for. Throws Error when the plan's standard cannot be read. */
export async function makePacket(hand: PlanInHand, zone: Zone, paper: Paper, language: Language): Promise<BuiltPacket> {
  const [{ buildPacket }, { loadFonts }, standard] = await Promise.all([
    import("../formats/packet/build-packet.ts"),
    import("./fonts.ts"),
    standardOf(hand.source),
  ]);
  return buildPacket(hand.opened.plan, zone, standard, await loadFonts(), { paper, language });
}

async function standardOf(source: PlanSource): Promise<Standard> {
  const bytes = await source.read("standard.json");
  if (bytes === null) return usCommon();
  const parsed = completeStandard(JSON.parse(new TextDecoder().decode(bytes)));
  if ("faults" in parsed) throw new Error(`The plan's standard cannot be used. ${parsed.faults.join(" ")}`);
  return parsed.standard;
}
