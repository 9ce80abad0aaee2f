/** Why something is not kept in the browser. */
export const NOT_KEPT = ["full", "blocked", "newer", "broken", "failed"] as const;
export type NotKept = (typeof NOT_KEPT)[number];

/** Something could not be kept or read; what was kept before is as it was. */
export class StorageFault extends Error {
  override readonly name = "StorageFault";
  constructor(
    readonly why: NotKept,
    cause?: unknown,
  ) {
    super(NOT_KEPT_WORDS[why], { cause });
  }
}

/** Why, for the reader, and what to do. */
export const NOT_KEPT_WORDS: Readonly<Record<NotKept, string>> = {
  full: "The browser has no room left for it. Download a copy, or forget a kept plan.",
  blocked: "This browser keeps nothing for the page: it is blocked, or the window is private. Download a copy.",
  newer:
    "A newer Boughline keeps its work in this browser, and this page leaves that alone. Reload, or download a copy.",
  broken: "What was kept of it cannot be read.",
  failed: "The browser could not write it. Download a copy.",
};

const WHY: Readonly<Record<string, NotKept>> = {
  QuotaExceededError: "full",
  VersionError: "newer",
  SecurityError: "blocked",
  InvalidStateError: "blocked",
  NotAllowedError: "blocked",
  DataError: "broken",
  NotReadableError: "broken",
};

/** The fault behind whatever the browser's storage threw or ended a transaction with. */
export function storageFault(error: unknown): StorageFault {
  if (error instanceof StorageFault) return error;
  const name = error instanceof Error || error instanceof DOMException ? error.name : "";
  return new StorageFault(Object.hasOwn(WHY, name) ? WHY[name]! : "failed", error);
}
