import { z } from "zod";

// The page's content policy forbids the code that zod would write for speed.
z.config({ jitless: true });

/** What an edit is about; each kind has its own reader of payloads. Recorded work makes a new revision, which is kept as a plan of its own. */
export const EDIT_KINDS = ["zone-edit"] as const;
export type KnownEditKind = (typeof EDIT_KINDS)[number];

/**
 * One edit of a plan, as it is kept: appended once and never changed. Undoing an edit appends its reverse. The payload is plain JSON;
 * whoever applies the kind reads it with the same care as a file from outside.
 */
export interface EditRecord {
  readonly id: string;
  readonly planId: string;
  /** The revision the edit was made on. */
  readonly revision: number;
  /** One of {@link EDIT_KINDS}, or one that a later version wrote: it is kept as it is. */
  readonly kind: string;
  readonly payload: unknown;
  /** When it was made, ISO 8601 in UTC. For people only: the order of edits is the order they were appended in. */
  readonly at: string;
}

const MOST_LETTERS = 200;

/** Looseness is on purpose: members that a later version adds are kept, not refused. */
const SCHEMA = z.object({
  id: z.string().min(1).max(MOST_LETTERS),
  planId: z.string().min(1).max(MOST_LETTERS),
  revision: z.int().min(0),
  kind: z.string().min(1).max(MOST_LETTERS),
  payload: z.unknown(),
  at: z.iso.datetime(),
});

/** The edit a stored value holds; null for one that is none. The browser's storage can be written by others, so it is not trusted. */
export function parseEditRecord(value: unknown): EditRecord | null {
  const parsed = SCHEMA.safeParse(value);
  if (!parsed.success) return null;
  const { id, planId, revision, kind, payload, at } = parsed.data;
  return { id, planId, revision, kind, payload, at };
}
