import type { BrowserContext } from "playwright-core";

/** The most edits that any page of the profile has shown as saved since it was last asked, however short the time it was shown. */
export interface SavedWitness {
  /** Edits shown as saved; 0 when nothing was. */
  readonly edits: number;
  forget(): void;
}

/** Watches what the pages opened from now on say of their work, change by change. */
export async function watchSaved(context: BrowserContext): Promise<SavedWitness> {
  let edits = 0;
  await context.exposeBinding("witnessSaved", (_source, count: number) => {
    edits = Math.max(edits, count);
  });
  await context.addInitScript(() => {
    const attach = Element.prototype.attachShadow;
    Element.prototype.attachShadow = function (init) {
      const root = attach.call(this, init);
      if (this.localName !== "keep-line") return root;
      new MutationObserver(() => {
        const said = root.querySelector("[role=status]")?.textContent ?? "";
        const count = /Saved in this browser with (\d+) edit/.exec(said)?.[1];
        if (count === undefined) return;
        void (globalThis as unknown as { witnessSaved(count: number): Promise<void> }).witnessSaved(Number(count));
      }).observe(root, { subtree: true, childList: true, characterData: true });
      return root;
    };
  });
  return {
    get edits() {
      return edits;
    },
    forget() {
      edits = 0;
    },
  };
}
