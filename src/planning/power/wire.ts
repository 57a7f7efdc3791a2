/**
 * Copper conductors: diameters, resistance, what a flexible cord may carry. A size is only offered for
 * cords when the table it comes from is named beside it.
 */

const FEET_PER_KILOMETRE = 1000 / 0.3048;
/** Of copper near 20 °C, per kelvin: IEC 60228 takes conductor resistance to other temperatures with it. */
const COPPER_PER_KELVIN = 0.00393;

/** Diameter of an American wire gauge in inches, by the geometric series of ASTM B258: 0.005 x 92^((36 - n) / 39). */
export const gaugeInches = (gauge: number): number => 0.005 * 92 ** ((36 - gauge) / 39);

/** Area in circular mils: the square of the diameter in thousandths of an inch. */
export const gaugeCircularMils = (gauge: number): number => (gaugeInches(gauge) * 1000) ** 2;

export const gaugeSquareMillimetres = (gauge: number): number =>
  (Math.PI / 4) * (gaugeInches(gauge) * 25.4) ** 2;

/** Resistance at another temperature than the 20 °C of IEC 60228: R = R20 (1 + 0.00393 (t - 20)). */
export const atCelsius = (ohmsAtTwenty: number, celsius: number): number =>
  ohmsAtTwenty * (1 + COPPER_PER_KELVIN * (celsius - 20));

/**
 * Volts lost along a cord of two conductors, out and back: 2 x length x ohms per length x amps.
 * Direct-current resistance; in sizes this small reactance does not count.
 */
export const dropVolts = (amps: number, lengthMetres: number, ohmsPerKilometre: number): number =>
  (2 * lengthMetres * ohmsPerKilometre * amps) / 1000;

export type CordSize = {
  readonly size: string;
  /** At working temperature: 75 °C for gauges, 70 °C for square millimetres. */
  readonly ohmsPerKilometre: number;
  /** Two current-carrying conductors, 30 °C around, lying free and unrolled. */
  readonly ratedAmps: number;
  /** True if the table's value is from memory and was not read. */
  readonly fromMemory: boolean;
};

/** NEC Chapter 9 Table 8, stranded uncoated copper at 75 °C, ohms per 1,000 ft; and Table 400.5(A)(1), column B, amps. */
const GAUGES = [
  { gauge: 16, ohmsPerThousandFeet: 4.99, ratedAmps: 13, fromMemory: false },
  { gauge: 14, ohmsPerThousandFeet: 3.14, ratedAmps: 18, fromMemory: false },
  { gauge: 12, ohmsPerThousandFeet: 1.98, ratedAmps: 25, fromMemory: false },
  { gauge: 10, ohmsPerThousandFeet: 1.24, ratedAmps: 30, fromMemory: true },
  { gauge: 8, ohmsPerThousandFeet: 0.778, ratedAmps: 40, fromMemory: true },
] as const;

/** IEC 60228 class 5 plain copper at 20 °C, ohms per km (4 and 6 mm² from memory); BS 7671 Table 4F3A, amps (from memory). */
const SQUARE_MILLIMETRES = [
  { area: 1.5, ohmsAtTwenty: 13.3, ratedAmps: 16 },
  { area: 2.5, ohmsAtTwenty: 7.98, ratedAmps: 25 },
  { area: 4, ohmsAtTwenty: 4.95, ratedAmps: 32 },
  { area: 6, ohmsAtTwenty: 3.3, ratedAmps: 41 },
] as const;

/** Cord sizes, the lightest first. */
export const CORD_SIZES: Readonly<Record<"awg" | "mm2", readonly CordSize[]>> = {
  awg: GAUGES.map(({ gauge, ohmsPerThousandFeet, ratedAmps, fromMemory }) => ({
    size: `${gauge} AWG`,
    ohmsPerKilometre: (ohmsPerThousandFeet * FEET_PER_KILOMETRE) / 1000,
    ratedAmps,
    fromMemory,
  })),
  mm2: SQUARE_MILLIMETRES.map(({ area, ohmsAtTwenty, ratedAmps }) => ({
    size: `${area} mm2`,
    ohmsPerKilometre: atCelsius(ohmsAtTwenty, 70),
    ratedAmps,
    fromMemory: true,
  })),
};
