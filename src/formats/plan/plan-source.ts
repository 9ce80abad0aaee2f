/** Where a revision's files are read from: a folder, a web address or memory. */
export interface PlanSource {
  /** Bytes of a file of the revision, by its name such as `plan.json`; null when there is none. */
  read(name: string): Promise<Uint8Array | null>;
}

/** A revision held in memory, for example one just made from dropped files. */
export const memorySource = (files: ReadonlyMap<string, Uint8Array>): PlanSource => ({
  read: async (name) => files.get(name) ?? null,
});

/**
 * A revision served under a web address, for example `https://host/plan/current/`. Only fixed file names below that address are
 * requested. Throws Error when the server answers with anything but the file or "not found".
 */
export const urlSource = (address: string): PlanSource => {
  const base = address.endsWith("/") ? address : `${address}/`;
  return {
    read: async (name) => {
      const response = await fetch(base + name);
      if (response.status === 404) return null;
      if (!response.ok) throw new Error(`${base}${name} answered ${response.status}`);
      return new Uint8Array(await response.arrayBuffer());
    },
  };
};
