import type { Language } from "../core/language/language.ts";
import type { Zone } from "../core/model/zone.ts";
import type { BuiltPacket } from "../formats/packet/build-packet.ts";
import type { PlanInHand } from "./plan-in-hand.ts";
import { planStandard } from "./plan-standard.ts";
import type { Paper } from "./sheet/zone-sheet.ts";

/** A zone's packet as one zip. What it takes is loaded when first asked for. Throws Error when the plan's standard cannot be read. */
export async function makePacket(hand: PlanInHand, zone: Zone, paper: Paper, language: Language): Promise<BuiltPacket> {
  const [{ buildPacket }, { loadFonts }, standard] = await Promise.all([
    import("../formats/packet/build-packet.ts"),
    import("./fonts.ts"),
    planStandard(hand.source),
  ]);
  return buildPacket(hand.opened.plan, zone, standard, await loadFonts(), { paper, language });
}
