/** Trying again until it is done: at once when asked or when the signal is back, else after ever longer pauses. */

type Work = {
  /** One try; says whether nothing is left to do. Never two at once. */
  readonly attempt: () => Promise<boolean>;
};

const FIRST_PAUSE = 2000;
const LONGEST_PAUSE = 30_000;

export function retrying({ attempt }: Work): { readonly now: () => void } {
  let running = false;
  let wanted = false;
  let pause = FIRST_PAUSE;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const now = async (): Promise<void> => {
    // What is asked for during a try may come too late for that one.
    wanted = true;
    if (running) return;
    running = true;
    clearTimeout(timer);
    while (wanted) {
      wanted = false;
      const done = await attempt();
      if (done) pause = FIRST_PAUSE;
      else if (!wanted) {
        timer = setTimeout(() => void now(), pause);
        pause = Math.min(pause * 2, LONGEST_PAUSE);
      }
    }
    running = false;
  };

  window.addEventListener("online", () => {
    pause = FIRST_PAUSE;
    void now();
  });
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) void now();
  });
  return { now: () => void now() };
}
