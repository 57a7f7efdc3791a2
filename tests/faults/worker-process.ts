/** Servers in process groups of their own, so that they can be killed whole. */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import type { AddressInfo } from "node:net";
import { createServer } from "node:net";
import { fileURLToPath } from "node:url";

export type ServerProcess = {
  readonly url: string;
  /** Its process group. */
  readonly group: number;
  /** SIGKILL to the whole group: nothing in it gets a chance to write anything more. */
  readonly kill: () => Promise<void>;
};
export type WorkerProcess = ServerProcess;

export type Surroundings = {
  /** A command that runs the one after it. */
  readonly under?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
};

/** Runs a script beside this file with Node, and resolves when it says that it serves. */
export async function serveProcess(
  script: string,
  args: readonly string[],
  { under = [], env = {} }: Surroundings = {},
): Promise<ServerProcess> {
  const file = fileURLToPath(new URL(script, import.meta.url));
  const [command = process.execPath, ...rest] = [...under, process.execPath, file, ...args];
  const child: ChildProcess = spawn(command, rest, {
    detached: true,
    stdio: ["ignore", "pipe", "inherit"],
    env: { ...process.env, ...env },
  });
  const { pid, stdout } = child;
  if (pid === undefined || stdout === null) throw new Error(`${script} did not start`);
  const exited = once(child, "exit");
  const url = await new Promise<string>((resolve, reject) => {
    let said = "";
    stdout.on("data", (chunk: Buffer) => {
      said += chunk.toString();
      const line = /^serving (http:\S+)$/m.exec(said)?.[1];
      if (line !== undefined) resolve(line);
    });
    child.once("exit", () => reject(new Error(`${script} ended before it served`)));
  });
  return {
    url,
    group: pid,
    kill: async () => {
      process.kill(-pid, "SIGKILL");
      await exited;
    },
  };
}

/** Starts the worker on a port and a folder, and resolves when it serves. */
export const startProcess = (
  port: number,
  data: string,
  gateway: readonly string[] = [],
  surroundings: Surroundings = {},
): Promise<WorkerProcess> => serveProcess("./served.ts", [String(port), data, ...gateway], surroundings);

/** A port that was free a moment ago: the same one must be taken again after a kill. */
export async function freePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as AddressInfo; // a listening server has such an address
  await new Promise((resolve) => server.close(resolve));
  return port;
}
