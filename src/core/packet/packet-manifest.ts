import type { Plan } from "../model/plan.ts";
import type { Zone } from "../model/zone.ts";

export interface PacketFile {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** What a packet says about itself, so that a completion can be matched to the plan, revision and zone it was made for. */
export interface PacketManifest {
  readonly format: "boughline-packet";
  readonly version: 1;
  /** Language of the sheets and the phone page, as a BCP 47 tag; data files are the same in all. */
  readonly language: string;
  readonly planId: string;
  readonly revision: number;
  readonly asOf: string;
  readonly standardId: string;
  readonly zoneId: string;
  readonly zoneName: string;
  readonly visits: readonly string[];
  readonly files: readonly PacketFile[];
  /** Characters no bundled font can draw, as `U+hhhh`; on paper each stands as a box. */
  readonly charactersNotDrawn: readonly string[];
  /** Clauses that the language's catalog does not have; they stand in English. */
  readonly notTranslated: readonly string[];
}

export const packetManifest = (
  plan: Plan,
  zone: Zone,
  files: readonly PacketFile[],
  charactersNotDrawn: readonly string[],
  language = "en",
  notTranslated: readonly string[] = [],
): PacketManifest => ({
  format: "boughline-packet",
  version: 1,
  language,
  planId: plan.planId,
  revision: plan.revision,
  asOf: plan.options.asOf,
  standardId: plan.standardId,
  zoneId: zone.zoneId,
  zoneName: zone.name,
  visits: zone.visitIds,
  files,
  charactersNotDrawn,
  notTranslated,
});
