import { type Prediction, Z_90 } from "./equation.ts";

/**
 * The mean of several species' predictions, with a 90 % interval for a tree of any of them: the root of the mean variance within the
 * species plus the variance between them (our pooling). A single prediction stays as it is. The low end is at least a tenth of the value.
 */
export function pool(predictions: readonly Prediction[]): Prediction {
  const count = predictions.length;
  if (count === 1) return predictions[0]!;
  let sum = 0;
  let squares = 0;
  let within = 0;
  for (const { valueM, lowM, highM } of predictions) {
    sum += valueM;
    squares += valueM * valueM;
    within += ((highM - lowM) / (2 * Z_90)) ** 2;
  }
  const valueM = sum / count;
  const between = Math.max(0, squares / count - valueM * valueM);
  const deviation = Z_90 * Math.sqrt(within / count + between);
  return { valueM, lowM: Math.max(valueM - deviation, valueM / 10), highM: valueM + deviation };
}
