/** One measured figure beside the goal it is held against. */
export type Figure = {
  readonly bench: string;
  readonly name: string;
  readonly figure: number;
  /** The goal; null if the figure is only shown. */
  readonly goal: { readonly atLeast: number } | { readonly atMost: number } | null;
  readonly unit: string;
};

export type Bench = { readonly name: string; readonly run: () => Promise<readonly Figure[]> };

/** Whether the figure reaches its goal; null if there is none. */
export function met({ figure, goal }: Figure): boolean | null {
  if (goal === null) return null;
  return "atLeast" in goal ? figure >= goal.atLeast : figure <= goal.atMost;
}

/** The middle value of an odd or even count of measurements. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}
