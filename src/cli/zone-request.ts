import type { ZoneOptions } from "../core/model/plan.ts";
import { CREWS, type Crew } from "../core/model/terms.ts";
import type { ZoneRequest } from "../formats/plan/zone-plan.ts";
import { type FeedMetadata, metadataFaults } from "../formats/wzdx/feed-metadata.ts";
import type { ZoneOptions as CliOptions } from "./commands/zone.ts";
import { usageError } from "./exit-codes.ts";

/** What `zone` is asked for by its options. Throws CommandError (wrong usage) that says what is expected. */
export function zoneRequest(options: CliOptions): ZoneRequest {
  const feed = feedOf(options);
  const zoning: ZoneOptions = {
    ...(options.crewHours === undefined ? {} : { crewHours: numberOf("--crew-hours", options.crewHours, 1, 24) }),
    ...(options.crewPeople === undefined ? {} : { people: peopleOf(options.crewPeople) }),
    ...(options.lift === undefined ? {} : { hasLift: options.lift }),
  };
  return { zoning, anew: options.anew === true, ...(feed === null ? {} : { feed }) };
}

function numberOf(option: string, text: string, least: number, most: number): number {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (value >= least && value <= most) return value;
  throw usageError(`${option}: expected a number from ${least} to ${most}, got "${text.slice(0, 40)}".`);
}

function peopleOf(text: string): Partial<Record<Crew, number>> {
  const people: Partial<Record<Crew, number>> = {};
  for (const part of text.split(",")) {
    const [kind = "", count = ""] = part.split("=").map((one) => one.trim());
    if (!(CREWS as readonly string[]).includes(kind)) {
      throw usageError(
        `--crew-people: expected ${CREWS.join(", ")} with a number, such as aerial=3, got "${part.slice(0, 40)}".`,
      );
    }
    people[kind as Crew] = numberOf("--crew-people", count, 1, 20);
  }
  return people;
}

function feedOf(options: CliOptions): FeedMetadata | null {
  const { wzdxPublisher, wzdxOrganization, wzdxContact, wzdxUpdated } = options;
  if (wzdxPublisher === undefined) {
    if (wzdxOrganization === undefined && wzdxContact === undefined && wzdxUpdated === undefined) return null;
    throw usageError("A work zone feed needs its publisher: --wzdx-publisher with the road authority's name.");
  }
  const feed: FeedMetadata = {
    publisher: wzdxPublisher,
    updated: wzdxUpdated ?? `${new Date().toISOString().slice(0, 19)}Z`,
    ...(wzdxOrganization === undefined ? {} : { organization: wzdxOrganization }),
    ...(wzdxContact === undefined ? {} : { contactEmail: wzdxContact }),
  };
  const faults = metadataFaults(feed);
  if (faults.length > 0) throw usageError(`The work zone feed cannot be published so. ${faults.join(" ")}`);
  return feed;
}
