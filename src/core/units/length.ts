declare const unit: unique symbol;
/** A length in meters. Plain numbers stay assignable from it; only `meters()` and the converters make one. */
export type Meters = number & { readonly [unit]: "m" };
/** A length in international feet. */
export type Feet = number & { readonly [unit]: "ft" };
/** An angle in degrees, clockwise from north where it is a bearing. */
export type Degrees = number & { readonly [unit]: "deg" };

/** Meters in one international foot; exact (Federal Register 24 FR 5348, 1 July 1959). */
export const METERS_PER_FOOT = 0.3048;
/** Meters in one inch; exact, a twelfth of the foot. */
export const METERS_PER_INCH = 0.0254;
/** Meters in one US survey foot; exact, 1200/3937 (same notice). Only for coordinates, never for sizes. */
export const METERS_PER_US_SURVEY_FOOT = 1200 / 3937;
/** Meters per second in one mile per hour; exact, 1609.344 m over 3600 s. */
export const METERS_PER_SECOND_PER_MPH = 0.44704;
/** Kilometers per hour in one mile per hour; exact. */
export const KMH_PER_MPH = 1.609344;

export const meters = (value: number): Meters => value as Meters;
export const metersFromFeet = (feet: number): Meters => (feet * METERS_PER_FOOT) as Meters;
export const metersFromInches = (inches: number): Meters => (inches * METERS_PER_INCH) as Meters;
export const feetFromMeters = (lengthM: number): Feet => (lengthM / METERS_PER_FOOT) as Feet;
