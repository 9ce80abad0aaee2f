/**
 * Horizontal distance in meters within which a tree that falls whole about its foot can touch a wire `aboveFootM` higher than the foot:
 * sqrt(h^2 - dz^2); 0 when it is not tall enough. A rigid tree on even ground; no slide, throw or broken top. Throws RangeError for a
 * negative height.
 */
export function strikeReachM(treeHeightM: number, aboveFootM: number): number {
  if (!(treeHeightM >= 0)) throw new RangeError(`Expected a height of 0 m or more, got ${treeHeightM}`);
  return Math.sqrt(Math.max(0, treeHeightM * treeHeightM - aboveFootM * aboveFootM));
}

/** Whether a tree could strike a wire at a horizontal distance; touching counts. An attribute, no conflict by itself. */
export function canStrike(treeHeightM: number, horizontalM: number, aboveFootM: number): boolean {
  return treeHeightM >= Math.hypot(horizontalM, aboveFootM);
}
