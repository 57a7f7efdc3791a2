/**
 * A heating element at the end of a long cord. It is a resistance, so its power goes with the square of the voltage
 * that reaches it.
 */

/** Volts left at a resistance behind a cord of two conductors (voltage divider). */
export function voltsAtElement(
  socketVolts: number,
  elementOhms: number,
  lengthMetres: number,
  ohmsPerKilometre: number,
): number {
  const cordOhms = (2 * lengthMetres * ohmsPerKilometre) / 1000;
  return (socketVolts * elementOhms) / (elementOhms + cordOhms);
}

/** Share of its plate's watts that an element gives: (volts / plate volts)^2. */
export const heatShareAt = (volts: number, plateVolts: number): number => (volts / plateVolts) ** 2;

/**
 * The factor by which the warm-up is longer with a share of the heat. A body that gains P and loses heat in proportion
 * to its temperature (Newton's law of cooling) reaches working heat after -tau ln(1 - holding / P); `holdingShare` is
 * the part of full power that holds that heat. Without losses this is 1 / heatShare. Null if the heat is at most enough
 * to hold it: it never gets there.
 */
export function warmUpStretch(heatShare: number, holdingShare: number): number | null {
  if (holdingShare >= heatShare) return null;
  if (holdingShare <= 0) return 1 / heatShare;
  return Math.log1p(-holdingShare / heatShare) / Math.log1p(-holdingShare);
}
