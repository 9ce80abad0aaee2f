import { z } from "zod";
import { PLAN_FORMAT } from "../../core/plan/plan-manifest.ts";

// The page's content policy forbids the code that zod would write for speed.
z.config({ jitless: true });

/** Version of what this page keeps of a plan; work of a later one is shown, and neither opened nor written to. */
export const KEPT_FORMAT = 1;

const count = z.int().min(0);

const SCHEMA = z.object({
  key: z.string().min(1).max(300),
  format: z.int().min(1),
  /** Of the plan's own files, `format` in its `plan.json`. */
  planFormat: z.int().min(1),
  planId: z.string().min(1).max(200),
  revision: count,
  name: z.string().max(500),
  /** Where the plan came from: made or opened in the page, or a folder that is served beside it. */
  from: z.enum(["page", "served"]),
  /** When it was first kept, and when something of it was kept last; ISO 8601 in UTC. */
  since: z.iso.datetime(),
  at: z.iso.datetime(),
  /** How many edits were appended. Guards against two writers: whoever appends must know them all. */
  edits: count,
  /** Names of the plan's files that were kept with it, so that a lost one is noticed. */
  files: z.array(z.string().min(1).max(200)).max(200),
  bytes: count,
  counts: z.object({ trees: count, conflicts: count, zones: count }),
  /** The view of the page as a hash, read as one from outside. */
  view: z.string().max(20_000),
});

/** What is known of a plan that is kept in the browser, beside its files and edits. */
export type KeptWork = Readonly<z.infer<typeof SCHEMA>>;

/** A kept plan as the start page can offer it. */
export type KeptEntry =
  | { readonly is: "whole"; readonly work: KeptWork }
  /** Kept by a later version of the page. */
  | { readonly is: "newer"; readonly key: string; readonly name: string }
  | { readonly is: "broken"; readonly key: string };

/** What a stored value says of a kept plan; null where not even its key can be read. */
export function parseKeptWork(value: unknown): KeptEntry | null {
  const key = textOf(value, "key");
  if (key === null) return null;
  const newest = numberOf(value, "format") > KEPT_FORMAT || numberOf(value, "planFormat") > PLAN_FORMAT;
  if (newest) return { is: "newer", key, name: textOf(value, "name") ?? key };
  const parsed = SCHEMA.safeParse(value);
  return parsed.success ? { is: "whole", work: parsed.data } : { is: "broken", key };
}

function memberOf(value: unknown, name: string): unknown {
  return typeof value === "object" && value !== null && Object.hasOwn(value, name)
    ? value[name as keyof typeof value]
    : undefined;
}

function textOf(value: unknown, name: string): string | null {
  const member = memberOf(value, name);
  return typeof member === "string" && member !== "" ? member.slice(0, 500) : null;
}

const numberOf = (value: unknown, name: string): number => {
  const member = memberOf(value, name);
  return typeof member === "number" ? member : 0;
};
