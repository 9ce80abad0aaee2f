import type { FaceKind } from "./face-kind.ts";

/** A face of a sign or signal as its record has it. */
export interface Face {
  readonly id: string;
  readonly layer: "signs" | "signals";
  readonly kind: FaceKind;
  readonly lonDeg: number;
  readonly latDeg: number;
  /** Height of its lower edge above the road in meters; null when not recorded. */
  readonly bottomM: number | null;
  /** Direction the face looks to, degrees clockwise from north; or which way its traffic runs along the line it is drawn on; or unknown. */
  readonly facing: number | "forward" | "backward" | null;
}
