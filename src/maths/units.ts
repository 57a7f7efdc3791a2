/**
 * Units as people give them, turned into one. The inch, foot, pound and gallons are exact by
 * definition (international yard and pound agreement of 1959; US liquid gallon = 231 cubic inches).
 */
const MILLIMETRES_PER_INCH = 25.4;
export const KILOGRAMS_PER_POUND = 0.45359237;
export const LITRES_PER_US_GALLON = 3.785411784;

const MILLIMETRES = { in: MILLIMETRES_PER_INCH, ft: 12 * MILLIMETRES_PER_INCH, mm: 1, cm: 10, m: 1000 };

export type LengthGiven = { readonly value: number; readonly unit: keyof typeof MILLIMETRES };

export const inMillimetres = ({ value, unit }: LengthGiven): number => value * MILLIMETRES[unit];
export const inMetres = (length: LengthGiven): number => inMillimetres(length) / 1000;
export const feetOf = (metres: number): number => (metres * 1000) / MILLIMETRES.ft;

export const inKilograms = ({ value, unit }: { value: number; unit: "kg" | "lb" }): number =>
  unit === "kg" ? value : value * KILOGRAMS_PER_POUND;

export const inCelsius = ({ value, unit }: { value: number; unit: "C" | "F" }): number =>
  unit === "C" ? value : ((value - 32) * 5) / 9;

/** Litres, from litres or US gallons; also for rates, since the hour is the same on both sides. */
export const inLitres = ({ value, unit }: { value: number; unit: "L" | "gal" | "L/h" | "gal/h" }): number =>
  unit === "L" || unit === "L/h" ? value : value * LITRES_PER_US_GALLON;
