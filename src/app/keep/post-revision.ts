import type { ServedFolder } from "../served-plan.ts";

/**
 * Commits a revision to the folder that the page is served from: the files that differ from the revision before, as a zip. Throws Error with a sentence
 * for the reader when the server refuses; a folder that has moved on meanwhile stays as it is.
 */
export async function postRevision(folder: ServedFolder, zip: Uint8Array): Promise<void> {
  const response = await fetch("./plan/revisions", {
    method: "POST",
    headers: {
      "Content-Type": "application/zip",
      "X-Boughline-Token": folder.saveToken ?? "",
      "X-Boughline-Base-Revision": String(folder.revision),
    },
    body: zip as Uint8Array<ArrayBuffer>,
  });
  if (response.ok) return;
  const answer = (await response.json().catch(() => ({}))) as { reason?: unknown };
  const said = typeof answer.reason === "string" ? answer.reason : `The server answered ${response.status}.`;
  if (response.status === 409) {
    throw new Error(
      `${said} Your edits stay kept here. Download a copy, then reload the page to see the newer revision and make them there.`,
    );
  }
  throw new Error(`${said} Your edits stay kept here.`);
}
