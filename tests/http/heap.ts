/** The worker's heap, read through the debugger port. */

type Answer = {
  readonly id: number;
  readonly result?: { readonly usedSize?: number };
  readonly error?: unknown;
};

/**
 * Heap of the worker's isolate right after everything unused was collected, in MiB: its code and every object it holds.
 * Resident memory says little of that: a worker that keeps nothing grows by some 13 kB of it for each request, too.
 */
export async function keptHeap(inspectorPort: number): Promise<number> {
  const socket = new WebSocket(`ws://127.0.0.1:${inspectorPort}/core:user:stallpress`);
  const answers = new Map<number, (answer: Answer) => void>();
  socket.addEventListener("message", ({ data }) => {
    const answer = JSON.parse(String(data)) as Answer; // the protocol's own shape
    answers.get(answer.id)?.(answer);
  });
  await new Promise((resolve, reject) => {
    socket.addEventListener("open", resolve);
    socket.addEventListener("error", () => reject(new Error(`nobody debugs at ${inspectorPort}`)));
  });
  const call = (id: number, method: string): Promise<Answer> =>
    new Promise((resolve) => {
      answers.set(id, resolve);
      socket.send(JSON.stringify({ id, method }));
    });
  try {
    await call(1, "HeapProfiler.enable");
    const collected = await call(2, "HeapProfiler.collectGarbage");
    const { result } = await call(3, "Runtime.getHeapUsage");
    if (collected.error !== undefined || result?.usedSize === undefined)
      throw new Error(`the engine did not tell its heap: ${JSON.stringify(collected)}`);
    return result.usedSize / 2 ** 20;
  } finally {
    socket.close();
  }
}
