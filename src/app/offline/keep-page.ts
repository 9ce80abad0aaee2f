/** Said when a newer version waits. */
export const NEWER_PAGE =
  "A newer version of this page is ready. It opens when all tabs of this page are closed; what you do here is kept.";

/**
 * Lets the browser keep the page, so that it opens without a network. `onNewer` is called when a newer version is ready: it opens when all tabs of the page are closed, so a tab never works with
 * parts of two versions. Does nothing where the browser cannot, or in a page that is not built.
 */
export async function keepPage(onNewer: () => void): Promise<void> {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator) || !isSecureContext) return;
  try {
    const kept = await navigator.serviceWorker.register("./sw.js");
    if (kept.waiting !== null && navigator.serviceWorker.controller !== null) onNewer();
    kept.addEventListener("updatefound", () => {
      const coming = kept.installing;
      coming?.addEventListener("statechange", () => {
        if (coming.state === "installed" && navigator.serviceWorker.controller !== null) onNewer();
      });
    });
  } catch {
    // A browser may forbid it, as in a private window; the page then needs its server, and nothing else changes.
  }
}
