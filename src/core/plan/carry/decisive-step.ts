/**
 * Index of the step that a change is due to, when inputs are exchanged one after another: the one after which the value is never again what it was.
 * `values[0]` is the value before any step and differs from the last one, so that there is such a step.
 */
export const decisiveStep = (values: readonly string[]): number => values.lastIndexOf(values[0]!) + 1;
