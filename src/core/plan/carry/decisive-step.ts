/**
 * Index of the step that brought the last value about, when inputs are exchanged one after another: the first from which on every value is the last one.
 * `values[0]` is the value before any step, so a step's index is at least 1; 0 where no value ever differed from the last.
 */
export function decisiveStep(values: readonly string[]): number {
  const last = values.at(-1);
  let step = values.length - 1;
  while (step > 0 && values[step - 1] === last) step -= 1;
  return step;
}
