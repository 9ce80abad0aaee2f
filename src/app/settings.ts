/** What the server of the page says about it; every member may be missing. */
export interface PageSettings {
  /** Address of a map style to draw the plan on; null for bare paper. */
  readonly basemap: string | null;
  /** What the served plan is called; null for the name of its tree file. */
  readonly name: string | null;
  /** Set where the plan is served out of its folder; null beside a page on any other server. */
  readonly folder: FolderSettings | null;
}

export interface FolderSettings {
  /** What the page shows to save to the folder; null where it may not. */
  readonly saveToken: string | null;
}

export const NO_SETTINGS: PageSettings = { basemap: null, name: null, folder: null };

/** The settings served beside the page. A missing or broken file means none. */
export async function pageSettings(): Promise<PageSettings> {
  try {
    const response = await fetch("./config.json");
    const settings = objectOf(response.ok ? await response.json() : null);
    if (settings === null) return NO_SETTINGS;
    const folder = objectOf(memberOf(settings, "folder"));
    return {
      basemap: textIn(settings, "basemap"),
      name: textIn(settings, "name"),
      folder: folder === null ? null : { saveToken: textIn(folder, "saveToken") },
    };
  } catch {
    return NO_SETTINGS;
  }
}

const objectOf = (value: unknown): object | null => (typeof value === "object" && value !== null ? value : null);

const memberOf = (settings: object, name: string): unknown =>
  Object.hasOwn(settings, name) ? settings[name as keyof typeof settings] : null;

function textIn(settings: object, name: string): string | null {
  const value = memberOf(settings, name);
  return typeof value === "string" && value !== "" ? value : null;
}
