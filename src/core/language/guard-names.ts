/** Stands for a name while its sentence is taken apart: begins like a name and holds no mark that ends a clause. */
const STAND_IN = /N\uE000(\d+)\uE000/g;

/** Names that hold marks at which sentences are parted, such as `Walter H. Gage Hall`, taken out of a text and put back as they were. */
export function guardNames(names: ReadonlySet<string>): {
  readonly guarded: (text: string) => string;
  readonly restored: (text: string) => string;
} {
  // The longer first, so that a name within another does not break it.
  const risky = [...names]
    .filter((name) => /[.;:!?,()]/u.test(name))
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
  return {
    guarded: (text) =>
      risky.reduce(
        (out, name, at) => (out.includes(name) ? out.replaceAll(name, `N\uE000${at}\uE000`) : out),
        text.replaceAll("\uE000", ""),
      ),
    restored: (text) => text.replace(STAND_IN, (_, at: string) => risky[Number(at)]!),
  };
}
