/** The function with its last result kept while its arguments are the same. */
export function remembered<Args extends readonly unknown[], Result>(
  of: (...args: Args) => Result,
): (...args: Args) => Result {
  let last: { readonly args: Args; readonly result: Result } | null = null;
  return (...args) => {
    if (last === null || args.some((one, place) => one !== last?.args[place])) last = { args, result: of(...args) };
    return last.result;
  };
}
