/** Work that can be watched and stopped: each step tells how many asks it lived through. */
export type Work<Result> = Generator<number, Result, void>;
