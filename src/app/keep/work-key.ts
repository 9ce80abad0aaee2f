import { sha256 } from "../../formats/sha256.ts";
import type { PlanInHand } from "../plan-in-hand.ts";

/** Digits of the fingerprint; with plan and revision beside it, two that differ meet by chance about once in ten billion. */
const FINGERPRINT_DIGITS = 12;

/**
 * What the work on a plan is kept under: the plan, its revision, and a fingerprint of what it says and of its zones, so that two folders that each made a
 * revision of their own are told apart. Throws Error on an address without SHA-256.
 */
export async function workKey({ opened: { plan }, source }: PlanInHand): Promise<string> {
  const parts = await Promise.all(["plan.json", "zones.geojson"].map((name) => source.read(name)));
  const digests = await Promise.all(parts.map((bytes) => sha256(bytes ?? new Uint8Array())));
  const print = await sha256(new TextEncoder().encode(digests.join()));
  return `${plan.planId}.${plan.revision}.${print.slice(0, FINGERPRINT_DIGITS)}`;
}
