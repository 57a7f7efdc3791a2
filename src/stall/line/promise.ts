/** Turns forecasts into the seconds that can be promised. */
import { shareWithin } from "../../maths/lognormal.ts";
import type { Forecast } from "./forecast.ts";

const FAILURES_CONSIDERED = 4;
const HALVINGS = 16;

/** The probability that everything is pressed by then: failures are Poisson, and each shifts the end. */
function shareBy(forecasts: readonly Forecast[], seconds: number): number {
  let all = 1;
  for (const { mean, variance, outageSeconds, outages } of forecasts) {
    let probability = Math.exp(-outages);
    let share = 0;
    for (let failures = 0; failures <= FAILURES_CONSIDERED && probability > 1e-5; failures++) {
      share += probability * shareWithin({ mean: mean + failures * outageSeconds, variance }, seconds);
      probability *= outages / (failures + 1);
    }
    all *= share;
  }
  return all;
}

/** The seconds within which everything is pressed with the given probability; 0 if there are no forecasts. */
export function quantileSeconds(forecasts: readonly Forecast[], probability: number): number {
  if (forecasts.length === 0) return 0;
  const far = ({ mean, variance, outageSeconds }: Forecast): number =>
    mean + 5 * Math.sqrt(variance) + FAILURES_CONSIDERED * outageSeconds;
  let low = 0;
  let high = Math.max(...forecasts.map(far));
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2;
    if (shareBy(forecasts, middle) < probability) low = middle;
    else high = middle;
  }
  return high;
}

/**
 * An upper bound of `secondsFor` for one forecast, cheaper than the exact figure: at most 1 / (1 + k^2) of any
 * distribution lies k deviations above its mean (Cantelli's inequality).
 */
export function secondsAtMost(forecast: Forecast, probability: number): number {
  const { mean, variance, outageSeconds, outages } = forecast;
  const deviation = Math.sqrt(variance + outages * outageSeconds ** 2);
  return mean + outages * outageSeconds + deviation * Math.sqrt(probability / (1 - probability));
}
