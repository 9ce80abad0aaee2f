import type { Standard } from "./standard.ts";

/**
 * Height in meters at which a wire is taken to hang where none is known: the standard's band for its line-to-line voltage, above the last
 * one its own; the one height for all where it has no bands, and for an unknown voltage.
 */
export function assumedAttachmentM(standard: Standard, voltageV: number | null): number {
  const { assumedAttachmentByVoltage: bands, assumedAttachmentM: forAllM } = standard.conductor;
  if (voltageV === null || bands.length === 0) return forAllM;
  return (bands.find(({ upToV }) => voltageV <= upToV) ?? bands[bands.length - 1]!).heightM;
}
