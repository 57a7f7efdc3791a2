/**
 * Long work in short steps, so that it can be watched and stopped, and other work can run between them. Each step
 * yields the number of requests it simulated.
 */
export type Work<Result> = Generator<number, Result, void>;

/** Does the work straight through. */
export function finished<Result>(work: Generator<unknown, Result, void>): Result {
  for (let step = work.next(); ; step = work.next()) if (step.done === true) return step.value;
}

/** Does the work with a turn between its steps, and gives the same result. */
export async function inTurns<Result>(
  work: Generator<unknown, Result, void>,
  turn: () => Promise<void>,
): Promise<Result> {
  for (let step = work.next(); ; step = work.next()) {
    if (step.done === true) return step.value;
    await turn();
  }
}
