/** WGS 84: semi-major axis in meters and flattening, the defining constants (NGA.STND.0036). */
const A_M = 6_378_137;
const F = 1 / 298.257223563;

const E2 = F * (2 - F);
const E = Math.sqrt(E2);
const N = F / (2 - F);
const N2 = N * N;
const N3 = N2 * N;
const N4 = N2 * N2;
/** Radius in meters of the circle whose quarter is the meridian's quarter. */
const RECTIFYING_M = (A_M / (1 + N)) * (1 + N2 / 4 + N4 / 64);

// Kruger 1912 in the form of Karney 2011, "Transverse Mercator with an accuracy of a few nanometers", J. Geod. 85, eqs 35 and 36,
// cut after n^4: what is left out is under 0.1 micrometers.
const ALPHA_1 = N / 2 - (2 / 3) * N2 + (5 / 16) * N3 + (41 / 180) * N4;
const ALPHA_2 = (13 / 48) * N2 - (3 / 5) * N3 + (557 / 1440) * N4;
const ALPHA_3 = (61 / 240) * N3 - (103 / 140) * N4;
const ALPHA_4 = (49_561 / 161_280) * N4;
const BETA_1 = N / 2 - (2 / 3) * N2 + (37 / 96) * N3 - (1 / 360) * N4;
const BETA_2 = N2 / 48 + N3 / 15 - (437 / 1440) * N4;
const BETA_3 = (17 / 480) * N3 - (37 / 840) * N4;
const BETA_4 = (4397 / 161_280) * N4;

const RAD = Math.PI / 180;
/** Farther than this from the central meridian, in degrees, a longitude is pulled to it: such points are never measured. */
const MAX_EASTING_DEG = 60;

/**
 * Writes easting and northing in meters of a point into `out[at]`, `out[at + 1]`: ellipsoidal transverse Mercator on WGS 84 with scale 1
 * on the central meridian, northing from the equator.
 *
 * `eastDeg` is the longitude less the central meridian's, -180 to 180; beyond 60 degrees it is pulled to 60.
 */
export function projectInto(out: Float64Array, at: number, eastDeg: number, latDeg: number): void {
  const lambda = Math.max(-MAX_EASTING_DEG, Math.min(MAX_EASTING_DEG, eastDeg)) * RAD;
  const phi = latDeg * RAD;
  const tau = Math.tan(phi);
  const conformal = conformalTangent(tau);
  const cosLambda = Math.cos(lambda);
  const xi = Math.atan2(conformal, cosLambda);
  const eta = Math.asinh(Math.sin(lambda) / Math.hypot(conformal, cosLambda));
  out[at] =
    RECTIFYING_M *
    (eta +
      ALPHA_1 * Math.cos(2 * xi) * Math.sinh(2 * eta) +
      ALPHA_2 * Math.cos(4 * xi) * Math.sinh(4 * eta) +
      ALPHA_3 * Math.cos(6 * xi) * Math.sinh(6 * eta) +
      ALPHA_4 * Math.cos(8 * xi) * Math.sinh(8 * eta));
  out[at + 1] =
    RECTIFYING_M *
    (xi +
      ALPHA_1 * Math.sin(2 * xi) * Math.cosh(2 * eta) +
      ALPHA_2 * Math.sin(4 * xi) * Math.cosh(4 * eta) +
      ALPHA_3 * Math.sin(6 * xi) * Math.cosh(6 * eta) +
      ALPHA_4 * Math.sin(8 * xi) * Math.cosh(8 * eta));
}

/** Longitude less the central meridian's and latitude, in degrees, of a point of the plane; the inverse of {@link projectInto}. */
export function unproject(xM: number, yM: number): readonly [eastDeg: number, latDeg: number] {
  const xi = yM / RECTIFYING_M;
  const eta = xM / RECTIFYING_M;
  const xiSphere =
    xi -
    BETA_1 * Math.sin(2 * xi) * Math.cosh(2 * eta) -
    BETA_2 * Math.sin(4 * xi) * Math.cosh(4 * eta) -
    BETA_3 * Math.sin(6 * xi) * Math.cosh(6 * eta) -
    BETA_4 * Math.sin(8 * xi) * Math.cosh(8 * eta);
  const etaSphere =
    eta -
    BETA_1 * Math.cos(2 * xi) * Math.sinh(2 * eta) -
    BETA_2 * Math.cos(4 * xi) * Math.sinh(4 * eta) -
    BETA_3 * Math.cos(6 * xi) * Math.sinh(6 * eta) -
    BETA_4 * Math.cos(8 * xi) * Math.sinh(8 * eta);
  const sinhEta = Math.sinh(etaSphere);
  const cosXi = Math.cos(xiSphere);
  const tau = geographicTangent(Math.sin(xiSphere) / Math.hypot(sinhEta, cosXi));
  return [Math.atan2(sinhEta, cosXi) / RAD, Math.atan(tau) / RAD];
}

/** Tangent of the conformal latitude from that of the geographic one (Karney 2011, eqs 7 to 9). */
function conformalTangent(tau: number): number {
  const secant = Math.hypot(1, tau);
  const sigma = Math.sinh(E * Math.atanh((E * tau) / secant));
  return tau * Math.hypot(1, sigma) - sigma * secant;
}

/** The inverse by Newton's method (Karney 2011, eqs 19 to 21); two steps reach machine precision, three are made. */
function geographicTangent(conformal: number): number {
  let tau = conformal;
  for (let step = 0; step < 3; step += 1) {
    const reached = conformalTangent(tau);
    tau +=
      ((conformal - reached) / Math.hypot(1, reached)) * ((1 + (1 - E2) * tau * tau) / ((1 - E2) * Math.hypot(1, tau)));
  }
  return tau;
}
