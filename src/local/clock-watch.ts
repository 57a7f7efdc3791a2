/** Notices that somebody, or a time server, set this computer's clock back. */

/** Time servers move a clock by less than this without setting it. */
const TOLERATED_MILLISECONDS = 1000;
const EVERY_MILLISECONDS = 1000;

/** Calls `act` each time the clock was set back by a second or more; gives what ends the watch. */
export function whenSetBack(act: () => void): () => void {
  // How far the time of day is ahead of the monotonic clock.
  const ahead = (): number => Date.now() - performance.now();
  let before = ahead();
  const timer = setInterval(() => {
    const after = ahead();
    if (after < before - TOLERATED_MILLISECONDS) act();
    before = after;
  }, EVERY_MILLISECONDS);
  timer.unref();
  return () => clearInterval(timer);
}
