/** What the server of the page says about it; every member may be missing. */
export interface PageSettings {
  /** Address of a map style to draw the plan on; null for bare paper. */
  readonly basemap: string | null;
}

/** The settings served beside the page, with `?basemap=` in the address before them. A missing or broken file means none. */
export async function pageSettings(): Promise<PageSettings> {
  const asked = new URL(location.href).searchParams.get("basemap");
  if (asked !== null && asked !== "") return { basemap: asked };
  try {
    const response = await fetch("./config.json");
    const value: unknown = response.ok ? await response.json() : null;
    const basemap = typeof value === "object" && value !== null && "basemap" in value ? value.basemap : null;
    return { basemap: typeof basemap === "string" ? basemap : null };
  } catch {
    return { basemap: null };
  }
}
