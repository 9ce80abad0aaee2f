import type { ReactiveController, ReactiveControllerHost } from "lit";
import { activeElement } from "./active-element.ts";

/**
 * Gives the focus a place when what had it went away: a plan took the start page's place, a dialog closed over a button that is gone, an edit took a line
 * out. Without it the next key would begin at the top of the page. Leaves a reader alone who uses no keys.
 */
export class FocusKeeper implements ReactiveController {
  private last: HTMLElement | null = null;

  constructor(
    host: ReactiveControllerHost,
    private readonly place: () => HTMLElement | null,
  ) {
    host.addController(this);
  }

  hostConnected() {
    window.addEventListener("keydown", this.note, { capture: true });
    window.addEventListener("keyup", this.look);
  }

  hostDisconnected() {
    window.removeEventListener("keydown", this.note, { capture: true });
    window.removeEventListener("keyup", this.look);
  }

  hostUpdated() {
    this.look();
  }

  /** Where the key was pressed; a move within one component is told to nobody outside it. */
  private readonly note = () => {
    this.last = activeElement();
  };

  /** Parts draw themselves a moment after the page, and may give the focus a place of their own. */
  private readonly look = () => {
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        const { last } = this;
        if (last === null || activeElement() !== document.body) return;
        if (last !== document.body && last.isConnected && last.checkVisibility()) return;
        this.place()?.focus();
      }),
    );
  };
}
