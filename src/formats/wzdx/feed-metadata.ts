/** Who answers for a feed: what the specification requires and only the publisher knows. */
export interface FeedMetadata {
  /** Organization that publishes the feed: the road authority or its permit office. */
  readonly publisher: string;
  /** Organization whose work it is; the publisher where left out. */
  readonly organization?: string;
  /** UTC date and time the feed is made, RFC 3339. */
  readonly updated: string;
  readonly contactEmail?: string;
}

const PLACEHOLDERS =
  /^(x+|-+|\?+|n\/?a|none|null|unknown|test(ing)?|example.*|sample.*|your\b.*|my (city|organization|agency).*|publisher|organization|organisation|agency|city|name|todo|tbd|foo|bar|<.*>|\[.*\])$/i;

/** Why a name cannot stand for an organization in a feed; null when it can. A made-up publisher would make a feed that nobody answers for. */
export function nameFault(name: string): string | null {
  const text = name.trim();
  if (text.length < 2) return "a name of two letters or more is needed";
  return PLACEHOLDERS.test(text) ? `"${text.slice(0, 40)}" is a placeholder, not an organization` : null;
}

/** What is wrong with a feed's metadata, a sentence each; empty when it can be used. */
export function metadataFaults({ publisher, organization, updated, contactEmail }: FeedMetadata): string[] {
  const faults: string[] = [];
  const ofPublisher = nameFault(publisher);
  if (ofPublisher !== null) faults.push(`Publisher: ${ofPublisher}.`);
  const ofOrganization = organization === undefined ? null : nameFault(organization);
  if (ofOrganization !== null) faults.push(`Organization: ${ofOrganization}.`);
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/.test(updated)) {
    faults.push(`Expected an update time in UTC such as 2026-11-02T15:00:00Z, got "${updated.slice(0, 40)}".`);
  }
  if (contactEmail !== undefined && !/^[^@\s]+@[^@\s]+\.[^@\s]+$/.test(contactEmail)) {
    faults.push(`Expected an e-mail address, got "${contactEmail.slice(0, 60)}".`);
  }
  return faults;
}
