import type { Plan } from "../../src/core/model/plan.ts";
import type { Zone } from "../../src/core/model/zone.ts";
import { packetContent } from "../../src/core/packet/packet-content.ts";
import { type PhonePage, phonePage } from "../../src/core/packet/phone/phone-page.ts";
import { zoneStops } from "../../src/core/packet/zone-stops.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { smallPlan, smallZone } from "../core/packet/small-plan.ts";

/** The phone page's content of a zone. */
export const pageOf = (plan: Plan, zone: Zone): PhonePage =>
  phonePage(plan, zone, packetContent(plan, zone, usCommon()), zoneStops(plan, zone));

/** That of the small plan: nine trees of one street. */
export const smallPage: PhonePage = pageOf(smallPlan, smallZone);
