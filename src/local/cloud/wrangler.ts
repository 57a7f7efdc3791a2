/** Runs the platform's own command-line tool, as the person at the terminal would. */
import { spawn } from "node:child_process";

export type Ran = { readonly code: number; readonly out: string; readonly complaints: string };

/** Runs `wrangler` and returns its output. `input` goes in by stdin, so that it is not in the list of processes. */
export function wrangler(
  args: readonly string[],
  { input = "", environment = {} }: { input?: string; environment?: Readonly<Record<string, string>> } = {},
): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn("wrangler", args, { env: { ...process.env, ...environment } });
    let [out, complaints] = ["", ""];
    child.stdout.on("data", (text) => (out += String(text)));
    child.stderr.on("data", (text) => (complaints += String(text)));
    child.once("error", reject);
    child.once("close", (code) => resolve({ code: code ?? 1, out, complaints }));
    // It may end without reading: its code says how it went.
    child.stdin.on("error", () => {});
    child.stdin.end(input);
  });
}
