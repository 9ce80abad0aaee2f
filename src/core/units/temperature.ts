/** Kelvins, or steps of a degree Celsius, in one step of a degree Fahrenheit; exact, 5/9. */
export const CELSIUS_PER_FAHRENHEIT = 5 / 9;

export const celsiusFromFahrenheit = (temperatureF: number): number => (temperatureF - 32) * CELSIUS_PER_FAHRENHEIT;
