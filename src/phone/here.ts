import type { Place } from "../core/plan/completion/completion.ts";

/** Why a device gives no position. */
export type NoPosition = "denied" | "unavailable" | "unsupported";

const WAIT_MS = 20_000;

/** The device's position once, or why there is none. Some browsers give none to a page that was opened from a file. */
export function askHere(): Promise<Place | NoPosition> {
  // Typed as always there, but missing in some viewers.
  const geolocation = navigator.geolocation as Geolocation | undefined;
  if (geolocation === undefined) return Promise.resolve("unsupported");
  return new Promise((resolve) => {
    geolocation.getCurrentPosition(
      ({ coords }) =>
        resolve({
          lonDeg: Number(coords.longitude.toFixed(7)),
          latDeg: Number(coords.latitude.toFixed(7)),
          from: "device",
          accuracyM: Math.round(coords.accuracy * 10) / 10,
        }),
      ({ code }) => resolve(code === 1 ? "denied" : "unavailable"),
      { enableHighAccuracy: true, timeout: WAIT_MS, maximumAge: 5000 },
    );
  });
}
