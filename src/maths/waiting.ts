/**
 * Waiting-line formulas. Rates and times may be in any unit as long as it is the same one throughout.
 * A line that is offered as much work as it can do, or more, never settles: those functions answer null.
 */

/** A settled line: what a customer meets in the long run. */
export type SteadyLine = {
  /** Share of the servers' time that is spent serving, in [0, 1). */
  readonly use: number;
  /** Probability that an arrival has to wait. */
  readonly waitProbability: number;
  /** Mean time from arrival to the start of service. */
  readonly meanWait: number;
  /** Mean time from arrival to the end of service. */
  readonly meanStay: number;
  /** Mean number waiting, by Little's law. */
  readonly meanQueue: number;
  /** Mean number waiting or in service, by Little's law. */
  readonly meanPresent: number;
};

/**
 * Erlang B: the probability that all `servers` are busy when nobody waits, for `offered` erlang of work.
 * Recursion B(0) = 1, B(c) = aB(c-1) / (c + aB(c-1)); A. K. Erlang (1917), in ITU-D Teletraffic
 * Engineering Handbook, "Erlang's B-formula".
 */
export function erlangB(offered: number, servers: number): number {
  let blocked = 1;
  for (let count = 1; count <= servers; count++) blocked = (offered * blocked) / (count + offered * blocked);
  return blocked;
}

/**
 * Erlang C: the probability that an arrival waits. C = B / (1 - use (1 - B)), the usual rewriting of
 * Erlang's second formula over the first. 1 when the servers cannot keep up.
 */
export function erlangC(offered: number, servers: number): number {
  const use = offered / servers;
  if (use >= 1) return 1;
  const blocked = erlangB(offered, servers);
  return blocked / (1 - use * (1 - blocked));
}

/** M/M/c with no one at all present: 1 / (sum of a^n/n! below c, plus the geometric tail). */
export function emptyProbability(offered: number, servers: number): number {
  let term = 1;
  let sum = 0;
  for (let count = 0; count < servers; count++) {
    sum += term;
    term *= offered / (count + 1);
  }
  return offered < servers ? 1 / (sum + term / (1 - offered / servers)) : 0;
}

function steady(rate: number, meanService: number, servers: number, meanWait: number): SteadyLine {
  const offered = rate * meanService;
  const meanStay = meanWait + meanService;
  return {
    use: offered / servers,
    waitProbability: erlangC(offered, servers),
    meanWait,
    meanStay,
    meanQueue: rate * meanWait,
    meanPresent: rate * meanStay,
  };
}

/** M/M/c: Poisson arrivals at `rate`, exponential service of mean `meanService`, `servers` alike; null when it never settles. */
export function manyServers(rate: number, meanService: number, servers: number): SteadyLine | null {
  const offered = rate * meanService;
  if (offered >= servers) return null;
  const meanWait = (erlangC(offered, servers) * meanService) / (servers - offered);
  return steady(rate, meanService, servers, meanWait);
}

/**
 * M/G/1 by Pollaczek and Khinchine: Wq = rate (sd^2 + mean^2) / (2 (1 - use)). One server, any service
 * time with this mean and standard deviation; null when it never settles.
 */
export function oneServer(rate: number, meanService: number, deviation: number): SteadyLine | null {
  const use = rate * meanService;
  if (use >= 1) return null;
  return steady(rate, meanService, 1, (rate * (deviation ** 2 + meanService ** 2)) / (2 * (1 - use)));
}

/**
 * G/G/c by the Allen-Cunneen approximation: the M/M/c wait times the mean of the squared coefficients
 * of variation of the gaps between arrivals and of the service times (A. O. Allen, Probability,
 * Statistics and Queueing Theory; formula from memory). Exact for M/M/c and for M/G/1.
 */
export function uneven(
  rate: number,
  meanService: number,
  servers: number,
  arrivalVariation: number,
  serviceVariation: number,
): SteadyLine | null {
  const even = manyServers(rate, meanService, servers);
  if (even === null) return null;
  return steady(rate, meanService, servers, (even.meanWait * (arrivalVariation + serviceVariation)) / 2);
}

/**
 * The wait that a share of arrivals stay under. In M/M/c a wait that happens at all is exponential, so
 * P(wait > t) = C exp(-t C / Wq); used for other lines as a first answer.
 */
export function waitQuantile({ waitProbability, meanWait }: SteadyLine, share: number): number {
  if (waitProbability <= 1 - share || waitProbability === 0) return 0;
  return (meanWait / waitProbability) * Math.log(waitProbability / (1 - share));
}
