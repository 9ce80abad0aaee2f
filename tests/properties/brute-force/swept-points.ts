/** A wire's numbers as the engine keeps them in a row: both ends, sags at rest and swung, greatest swing, free string, H / w. */
export type WireNumbers = readonly number[];

/**
 * Where a wire is at a share of its span, swung by an angle, x and y in the plane's meters. Written from the method's words: the wire hangs below
 * its chord as a parabola, or as the catenary through both ends where H / w is given; string and drop turn together about the chord; the
 * sag goes evenly from that at rest to that at the greatest swing.
 */
export function wirePoint(wire: WireNumbers, share: number, angle: number): [number, number, number] {
  const [ax, ay, az, bx, by, bz, still, swung, most, string, parameter] = wire as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const span = Math.hypot(bx - ax, by - ay);
  const sag = most > 0 ? still + ((swung - still) * Math.abs(angle)) / most : still;
  const form = parameter > 0 ? catenaryForm(span, parameter, bz - az, share) : 1 - (1 - 2 * share) ** 2;
  const arm = string + sag * form;
  const aside = arm * Math.sin(angle);
  return [
    ax + share * (bx - ax) - (aside * (by - ay)) / span,
    ay + share * (by - ay) + (aside * (bx - ax)) / span,
    az + share * (bz - az) + string - arm * Math.cos(angle),
  ];
}

/** Drop below the chord over the drop at mid-span, from y = a cosh(x / a) through both ends. */
function catenaryForm(span: number, a: number, rise: number, share: number): number {
  const lowest = span / 2 - a * Math.asinh(rise / (2 * a * Math.sinh(span / (2 * a))));
  const y = (x: number): number => a * Math.cosh((x - lowest) / a);
  const drop = (x: number): number => y(0) + (rise * x) / span - y(x);
  return drop(share * span) / drop(span / 2);
}
