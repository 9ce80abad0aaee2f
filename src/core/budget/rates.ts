import { z } from "zod";
import { CREWS } from "../model/terms.ts";
import shipped from "./rates.json" with { type: "json" };

z.config({ jitless: true });

const money = z.number().min(0).max(1_000_000);

/** What work costs, as JSON. Unknown members are refused. */
export const ratesSchema = z.strictObject({
  currency: z
    .string()
    .regex(/^[A-Z]{3}$/)
    .meta({ description: "ISO 4217 code of all amounts" }),
  perCrewHour: z
    .record(z.enum(CREWS), money)
    .meta({ description: "A crew of that kind for an hour, with its vehicle, tools and overhead" }),
  debris: z.strictObject({
    chipsPerCrownM3: z
      .number()
      .min(0)
      .max(1)
      .meta({ description: "Cubic meters of chips from each cubic meter of crown that is taken off" }),
    perM3: money.meta({ description: "Hauling and disposing of a cubic meter of chips" }),
  }),
  lift: z
    .array(z.strictObject({ upToM: z.number().min(0), perHour: money }))
    .min(1)
    .refine((rows) => rows.every((row, at) => at === 0 || row.upToM > rows[at - 1]!.upToM), {
      message: "Expected heights in ascending order",
    })
    .meta({ description: "Surcharge by the height that a lift must reach; the last row holds above it too" }),
  source: z.string().min(1),
});

export type Rates = Readonly<z.output<typeof ratesSchema>>;

/** Rates to begin with: this project's own estimates, nobody's offer. */
export const SHIPPED_RATES: Rates = ratesSchema.parse(shipped);

/** Rates from their JSON value, or its faults as sentences. A part that is left out is the shipped one's. */
export function parseRates(json: unknown): { rates: Rates } | { faults: string[] } {
  if (typeof json !== "object" || json === null || Array.isArray(json)) {
    return { faults: ["Expected a JSON object with rates."] };
  }
  const given = json as { readonly perCrewHour?: object; readonly debris?: object };
  const result = ratesSchema.safeParse({
    ...SHIPPED_RATES,
    source: "as given, without a source",
    ...json,
    perCrewHour: { ...SHIPPED_RATES.perCrewHour, ...given.perCrewHour },
    debris: { ...SHIPPED_RATES.debris, ...given.debris },
  });
  return result.success
    ? { rates: result.data }
    : { faults: result.error.issues.map(({ path, message }) => `${path.join(".") || "The file"}: ${message}.`) };
}
