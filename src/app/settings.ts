/** What the server of the page says about it; every member may be missing. */
export interface PageSettings {
  /** Address of a map style to draw the plan on; null for bare paper. */
  readonly basemap: string | null;
  /** What the served plan is called; null for the name of its tree file. */
  readonly name: string | null;
}

/** The settings served beside the page. A missing or broken file means none. */
export async function pageSettings(): Promise<PageSettings> {
  try {
    const response = await fetch("./config.json");
    const value: unknown = response.ok ? await response.json() : null;
    const settings = typeof value === "object" && value !== null ? value : {};
    return { basemap: textIn(settings, "basemap"), name: textIn(settings, "name") };
  } catch {
    return { basemap: null, name: null };
  }
}

function textIn(settings: object, name: string): string | null {
  const value: unknown = Object.hasOwn(settings, name) ? settings[name as keyof typeof settings] : null;
  return typeof value === "string" && value !== "" ? value : null;
}
