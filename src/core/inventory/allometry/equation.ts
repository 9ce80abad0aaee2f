import { unreachable } from "../../model/terms.ts";

/** Equation forms by their names in the source (Urban Tree Database, table TS4). */
export const EQUATION_FORMS = [
  "lin",
  "quad",
  "cub",
  "quart",
  "loglogw1",
  "loglogw2",
  "loglogw3",
  "loglogw4",
  "expow1",
  "expow2",
  "expow3",
  "expow4",
] as const;
export type EquationForm = (typeof EQUATION_FORMS)[number];

/** One fitted equation from dbh in centimeters to a size in meters. */
export interface Equation {
  readonly form: EquationForm;
  /** a, b, c, d, e as published; in the loglog and expow forms c is the mean squared error, not a polynomial coefficient. */
  readonly coefficients: readonly number[];
  /** Standard deviation of the residuals at dbh 1 cm: of the size in meters, or of its logarithm in the loglog and expow forms. */
  readonly spread: number;
  /** The variance grows with dbh to this power (the fit's weight was its inverse): 0, 0.5, 1 or 2. */
  readonly variancePower: number;
  /** Trees it was fitted to. */
  readonly trees: number;
  /** dbh in centimeters between which it is used; beyond them the nearer end stands. */
  readonly fromCm: number;
  readonly toCm: number;
  /** Largest dbh in centimeters among the trees it was fitted to. */
  readonly measuredToCm: number;
}

/** A predicted size in meters with its 90 % interval for a single tree. */
export interface Prediction {
  readonly valueM: number;
  readonly lowM: number;
  readonly highM: number;
}

/** Two-sided 90 % point of the normal distribution. */
export const Z_90 = 1.645;

/**
 * The size in meters that the form gives for a dbh in centimeters, without any clamp.
 *
 * Forms: McPherson, van Doorn and Peper 2016, Urban Tree Database, table TS4. The table prints loglogw1 with mse/2 inside the outer
 * logarithm and the other three with it outside; here it is outside in all (the usual correction to the mean of a log-normal size).
 * On the source's raw trees the two readings differ by less than 1 % in their sums.
 */
export function evaluate(form: EquationForm, coefficients: readonly number[], dbhCm: number): number {
  const [a = 0, b = 0, c = 0, d = 0, e = 0] = coefficients;
  switch (form) {
    case "lin":
      return a + b * dbhCm;
    case "quad":
      return a + b * dbhCm + c * dbhCm ** 2;
    case "cub":
      return a + b * dbhCm + c * dbhCm ** 2 + d * dbhCm ** 3;
    case "quart":
      return a + b * dbhCm + c * dbhCm ** 2 + d * dbhCm ** 3 + e * dbhCm ** 4;
    case "loglogw1":
    case "loglogw2":
    case "loglogw3":
    case "loglogw4":
      return Math.exp(a + b * Math.log(Math.log(dbhCm + 1)) + dbhCm ** VARIANCE_POWER[form] * (c / 2));
    case "expow1":
    case "expow2":
    case "expow3":
    case "expow4":
      return Math.exp(a + b * dbhCm + dbhCm ** VARIANCE_POWER[form] * (c / 2));
    default:
      return unreachable(form);
  }
}

/** Whether the form's residuals are those of the size's logarithm. */
export const isLogarithmic = (form: EquationForm): form is keyof typeof VARIANCE_POWER =>
  Object.hasOwn(VARIANCE_POWER, form);

/** Power of dbh in the variance of the logarithm, by the last digit of the form's name (table TS4). */
export const VARIANCE_POWER = {
  loglogw1: 0,
  loglogw2: 0.5,
  loglogw3: 1,
  loglogw4: 2,
  expow1: 0,
  expow2: 0.5,
  expow3: 1,
  expow4: 2,
} as const;

/**
 * The size that an equation predicts for a dbh in centimeters, with the 90 % interval of a single tree: 1.645 residual standard
 * deviations, in the logarithm where the form is logarithmic (around its median).
 *
 * A dbh outside `fromCm` to `toCm` is taken at the nearer end. Beyond the largest measured dbh the interval is stretched by the
 * ratio of the two diameters (our policy). The low end is at least a tenth of the value.
 */
export function predict(equation: Equation, dbhCm: number): Prediction {
  const used = Math.min(Math.max(dbhCm, equation.fromCm), equation.toCm);
  const valueM = evaluate(equation.form, equation.coefficients, used);
  const stretch = Math.max(1, dbhCm / equation.measuredToCm);
  const deviation = Z_90 * equation.spread * used ** (equation.variancePower / 2) * stretch;
  if (!isLogarithmic(equation.form)) {
    return { valueM, lowM: Math.max(valueM - deviation, valueM / 10), highM: valueM + deviation };
  }
  const mse = (equation.coefficients[2] ?? 0) * used ** equation.variancePower;
  const medianM = valueM / Math.exp(mse / 2);
  return {
    valueM,
    lowM: Math.min(valueM, medianM * Math.exp(-deviation)),
    highM: Math.max(valueM, medianM * Math.exp(deviation)),
  };
}
