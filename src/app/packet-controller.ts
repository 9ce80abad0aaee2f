import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { Language } from "../core/language/language.ts";
import type { PlanInHand } from "./plan-in-hand.ts";
import { saveFile } from "./save-file.ts";
import type { Paper } from "./sheet/zone-sheet.ts";

/** The packet that is asked for. */
export interface PacketWish {
  readonly zoneId: string;
  readonly paper: Paper;
  readonly language: Language;
}

/** Makes one zone packet at a time and hands it to the reader as a download. */
export class PacketController implements ReactiveController {
  /** What is being done; null when nothing is. */
  packing: string | null = null;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly tell: (sentence: string) => void,
  ) {
    host.addController(this);
  }

  hostConnected() {}

  /** Makes the packet of a zone; a wish while another is being made, or for a zone the plan does not have, does nothing. */
  async download(hand: PlanInHand | null, { zoneId, paper, language }: PacketWish): Promise<void> {
    const zone = hand?.opened.plan.zones.find((one) => one.zoneId === zoneId);
    if (hand === null || zone === undefined || this.packing !== null) return;
    this.show("Drawing the sheets");
    try {
      const { makePacket } = await import("./make-packet.ts");
      const { name, bytes } = await makePacket(hand, zone, paper, language);
      saveFile(name, bytes, "application/zip");
    } catch (error) {
      this.tell(`The packet could not be made. ${error instanceof Error ? error.message : String(error)}`);
    }
    this.show(null);
  }

  private show(packing: string | null) {
    this.packing = packing;
    this.host.requestUpdate();
  }
}
