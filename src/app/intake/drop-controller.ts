import type { ReactiveController, ReactiveControllerHost } from "lit";
import { droppedFiles } from "./dropped-files.ts";

/** Takes files that are dropped anywhere on the page, and says while some are held over it. */
export class DropController implements ReactiveController {
  isOver = false;
  /** Elements entered and not yet left: the page is left when none remains. */
  private depth = 0;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly take: (files: File[]) => void,
  ) {
    host.addController(this);
  }

  hostConnected() {
    for (const [name, listener] of this.listeners) window.addEventListener(name, listener as EventListener);
  }

  hostDisconnected() {
    for (const [name, listener] of this.listeners) window.removeEventListener(name, listener as EventListener);
  }

  private readonly listeners = [
    ["dragenter", (event: DragEvent) => this.enter(event, 1)],
    ["dragleave", (event: DragEvent) => this.enter(event, -1)],
    ["dragover", (event: DragEvent) => hasFiles(event) && event.preventDefault()],
    ["drop", (event: DragEvent) => this.dropped(event)],
  ] as const;

  private enter(event: DragEvent, by: 1 | -1) {
    if (!hasFiles(event)) return;
    event.preventDefault();
    this.depth = Math.max(0, this.depth + by);
    this.show(this.depth > 0);
  }

  private async dropped(event: DragEvent) {
    const { dataTransfer } = event;
    if (dataTransfer === null || !hasFiles(event)) return;
    event.preventDefault();
    this.depth = 0;
    this.show(false);
    const files = await droppedFiles(dataTransfer);
    if (files.length > 0) this.take(files);
  }

  private show(isOver: boolean) {
    if (isOver === this.isOver) return;
    this.isOver = isOver;
    this.host.requestUpdate();
  }
}

const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") ?? false;
