import type { PhonePage } from "../../core/packet/phone/phone-page.ts";
import { element } from "../element.ts";
import { WORDS } from "../words.ts";

/** A manifest is a few kilobytes; what is larger is something else. */
const MOST_BYTES = 1_000_000;

/** A button that takes another packet's manifest, and says which of the two is newer. */
export function manifestCheck(page: PhonePage): HTMLElement {
  const { check } = WORDS;
  const said = element("p", { role: "status" });
  const picker = element("input", { type: "file", id: "manifest", accept: ".json,application/json", class: "picker" });
  picker.addEventListener("change", async () => {
    const file = picker.files?.[0];
    if (file === undefined) return;
    said.textContent = file.size > MOST_BYTES ? check.unreadable : compareManifest(page, await file.text());
    picker.value = "";
  });
  return element(
    "div",
    { class: "pick" },
    picker,
    element("label", { class: "button quiet", for: picker.id }, check.button),
    said,
  );
}

/** Which of this page and a manifest's packet is newer, in a sentence. */
export function compareManifest(page: Pick<PhonePage, "planId" | "revision" | "zoneId">, text: string): string {
  const { check } = WORDS;
  let manifest: Partial<Record<"format" | "planId" | "revision" | "zoneId", unknown>> | null;
  try {
    manifest = JSON.parse(text) as typeof manifest;
  } catch {
    return check.unreadable;
  }
  if (manifest?.format !== "boughline-packet" || typeof manifest.revision !== "number") return check.unreadable;
  const { revision, planId, zoneId } = manifest;
  if (planId !== page.planId) return check.otherPlan(String(planId).slice(0, 100));
  if (zoneId !== page.zoneId) return check.otherZone(String(zoneId).slice(0, 100));
  if (revision === page.revision) return check.same(page.revision);
  return revision > page.revision ? check.newer(page.revision, revision) : check.older(page.revision, revision);
}
