/** A worker in a process group of its own, so that it can be killed whole. */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";

const served = fileURLToPath(new URL("./served.ts", import.meta.url));

export type WorkerProcess = {
  readonly url: string;
  /** SIGKILL to the whole group: the runtime gets no chance to write anything more. */
  readonly kill: () => Promise<void>;
};

/** Starts the worker on a port and a folder, and resolves when it serves. */
export async function startProcess(port: number, data: string): Promise<WorkerProcess> {
  const child: ChildProcess = spawn(process.execPath, [served, String(port), data], {
    detached: true,
    stdio: ["ignore", "pipe", "inherit"],
  });
  const { pid, stdout } = child;
  if (pid === undefined || stdout === null) throw new Error("the worker process did not start");
  const exited = once(child, "exit");
  const url = await new Promise<string>((resolve, reject) => {
    let said = "";
    stdout.on("data", (chunk: Buffer) => {
      said += chunk.toString();
      const line = /^serving (http:\S+)$/m.exec(said)?.[1];
      if (line !== undefined) resolve(line);
    });
    child.once("exit", () => reject(new Error("the worker process ended before it served")));
  });
  return {
    url,
    kill: async () => {
      process.kill(-pid, "SIGKILL");
      await exited;
    },
  };
}
