import { COMPLETION_VERSION, type Completion } from "./completion.ts";
import { completionSchema } from "./completion-schema.ts";

/** How many faults of one file are told. */
const MOST_FAULTS = 50;

/**
 * A completion from its JSON value, or its faults as plain sentences, each with the member it is about. Refuses files of another kind, of
 * a newer version, and two entries about one visit. Whether plan, zone and trees are known is another question: {@link checkCompletion}.
 */
export function parseCompletion(json: unknown): { completion: Completion } | { faults: string[] } {
  if (typeof json !== "object" || json === null || Array.isArray(json)) {
    return { faults: ["This is not a completion: it is not a JSON object."] };
  }
  const { format, version } = json as { format?: unknown; version?: unknown };
  if (format !== "boughline-completion") {
    return { faults: ['This is not a completion: its member "format" does not say "boughline-completion".'] };
  }
  if (typeof version === "number" && version > COMPLETION_VERSION) {
    return {
      faults: [
        `This completion is of version ${version}; this Boughline reads up to ${COMPLETION_VERSION}. Use a newer one.`,
      ],
    };
  }
  const result = completionSchema.safeParse(json);
  if (!result.success) {
    return {
      faults: result.error.issues
        .slice(0, MOST_FAULTS)
        .map(({ path, message }) => `${path.length === 0 ? "The file" : path.join(".")}: ${message}.`),
    };
  }
  const completion = result.data as unknown as Completion;
  const faults = [
    ...repeated(completion.visits.map(({ visitId }) => visitId)).map((id) => `Two entries about visit ${id}.`),
    ...repeated([...completion.addedTrees, ...completion.hazards].map(({ addedId }) => addedId)).map(
      (id) => `Two additions have the id ${id}.`,
    ),
  ];
  return faults.length > 0 ? { faults: faults.slice(0, MOST_FAULTS) } : { completion };
}

function repeated(ids: readonly string[]): string[] {
  const seen = new Set<string>();
  const twice = new Set<string>();
  for (const id of ids) {
    if (seen.has(id)) twice.add(id);
    seen.add(id);
  }
  return [...twice];
}
