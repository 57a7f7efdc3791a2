/** Going live, with a fake of the platform's command-line tool that records every call. */
import { spawn } from "node:child_process";
import { chmod, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { GOING_LIVE } from "../../src/screens/pages/help/going-live.ts";

const SCRIPT = fileURLToPath(new URL("../../src/local/cloud/golive.ts", import.meta.url));

/** Keeps its calls and secrets in a file beside it; answers as the tool does, in the words that the command reads. */
const STAND_IN = `#!${process.execPath}
const fs = require("node:fs");
const path = require("node:path");
const file = path.join(__dirname, "state.json");
const state = JSON.parse(fs.readFileSync(file, "utf8"));
const args = process.argv.slice(2);
const input = args[1] === "put" ? fs.readFileSync(0, "utf8") : "";
state.calls.push({ args, input });
const finish = (code) => { fs.writeFileSync(file, JSON.stringify(state)); process.exit(code); };
if (args[0] === "whoami") finish(state.loggedIn ? 0 : 1);
if (args[0] === "secret" && args[1] === "list") {
  if (!state.answers) { console.error("the request took too long"); finish(1); }
  if (!state.deployed) { console.error('Worker "stallpress" not found.'); finish(1); }
  console.log(JSON.stringify(Object.keys(state.secrets).map((name) => ({ name, type: "secret_text" }))));
  finish(0);
}
if (args[0] === "secret" && args[1] === "put") { state.secrets[args[2]] = input; finish(0); }
if (args[0] === "deploy" && args.includes("--dry-run")) finish(state.builds ? 0 : 1);
if (args[0] === "deploy") {
  if (!state.builds) { console.error("the build failed"); finish(1); }
  state.deployed = true;
  fs.appendFileSync(process.env.WRANGLER_OUTPUT_FILE_PATH, JSON.stringify({ type: "deploy", targets: [state.address] }) + "\\n");
  finish(0);
}
finish(64);
`;

type State = {
  loggedIn: boolean;
  builds: boolean;
  /** Whether the platform lists the secrets. */
  answers: boolean;
  deployed: boolean;
  address: string;
  secrets: Record<string, string>;
  calls: { args: string[]; input: string }[];
};

let folder: string;
let worker: Server;
let asked: number;

const state = async (): Promise<State> => JSON.parse(await readFile(join(folder, "state.json"), "utf8"));
const set = async (change: Partial<State>): Promise<void> =>
  writeFile(join(folder, "state.json"), JSON.stringify({ ...(await state()), ...change }));

function goLive(
  ...args: readonly string[]
): Promise<{ code: number | null; out: string; complaints: string }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [SCRIPT, ...args], {
      env: { ...process.env, PATH: `${folder}${delimiter}${process.env["PATH"]}` },
    });
    let [out, complaints] = ["", ""];
    child.stdout.on("data", (text) => (out += text));
    child.stderr.on("data", (text) => (complaints += text));
    child.once("close", (code) => resolve({ code, out, complaints }));
  });
}

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "stallpress-standin-"));
  asked = 0;
  worker = createServer(async (_, response) => {
    asked += 1;
    const { secrets } = await state();
    const faults = ["KEY_SECRET", "OWNER_SECRET"].filter((name) => (secrets[name] ?? "").length < 32);
    response.writeHead(faults.length === 0 ? 200 : 503, { "content-type": "application/json" });
    response.end(JSON.stringify({ ok: faults.length === 0, records: 1, faults }));
  });
  await new Promise<void>((resolve) => worker.listen(0, "127.0.0.1", resolve));
  const { port } = worker.address() as AddressInfo; // it listens on a port
  await writeFile(
    join(folder, "state.json"),
    JSON.stringify({
      loggedIn: true,
      builds: true,
      answers: true,
      deployed: false,
      address: `http://127.0.0.1:${port}`,
      secrets: {},
      calls: [],
    }),
  );
  await writeFile(join(folder, "wrangler"), STAND_IN);
  await chmod(join(folder, "wrangler"), 0o755);
});

afterEach(async () => {
  worker.close();
  await rm(folder, { recursive: true, force: true });
});

describe("going live", () => {
  it("deploys, sets the missing secrets, waits for the worker and prints the link that begins a fair", async () => {
    const { code, out } = await goLive();
    const { secrets, calls, address } = await state();
    expect(code).toBe(0);
    expect(secrets["KEY_SECRET"]?.length).toBeGreaterThanOrEqual(32);
    expect(out).toContain(`${address}/start#owner=${secrets["OWNER_SECRET"]}`);
    expect(out).not.toContain(secrets["KEY_SECRET"]);
    expect(calls.map(({ args }) => args.join(" "))).toEqual([
      "whoami --json",
      "secret list --format json",
      "deploy",
      "secret put KEY_SECRET",
      "secret put OWNER_SECRET",
    ]);
    expect(asked).toBe(1);
  });

  it("repeated, deploys again and leaves every secret as it is", async () => {
    await goLive();
    const before = (await state()).secrets;
    const { code, out } = await goLive();
    const after = await state();
    expect(code).toBe(0);
    expect(after.secrets).toEqual(before);
    expect(out).toContain("type the owner's secret");
    expect(out).not.toContain(before["OWNER_SECRET"]);
  });

  it("replaces a lost owner's secret and no other if it is asked to", async () => {
    await goLive();
    const before = (await state()).secrets;
    const { out } = await goLive("--new-owner-secret");
    const after = (await state()).secrets;
    expect(after["KEY_SECRET"]).toBe(before["KEY_SECRET"]);
    expect(after["OWNER_SECRET"]).not.toBe(before["OWNER_SECRET"]);
    expect(out).toContain(`owner=${after["OWNER_SECRET"]}`);
  });

  it("checks everything and sends nothing", async () => {
    const { code, out } = await goLive("--check");
    const { calls, deployed, secrets } = await state();
    expect(code).toBe(0);
    expect([deployed, secrets, asked]).toEqual([false, {}, 0]);
    expect(calls.at(-1)?.args).toEqual(["deploy", "--dry-run"]);
    expect(out).toContain("OWNER_SECRET will be made and set");
  });

  it("goes as help writes it, command by command", async () => {
    const lines = GOING_LIVE.answers.flatMap(([, ...answer]) => answer);
    const written = lines.flatMap((line) => (typeof line === "object" && "run" in line ? [line.run] : []));
    const ways = written.filter((command) => command.startsWith("npm run golive"));
    expect(new Set(ways).size).toBe(3);
    for (const command of ways) {
      const [, args = ""] = command.split(" -- ");
      expect([command, (await goLive(...args.split(" ").filter((arg) => arg !== ""))).code]).toEqual([
        command,
        0,
      ]);
    }
  });

  it("says how to log in, and goes no further", async () => {
    await set({ loggedIn: false });
    const { code, complaints } = await goLive();
    expect(code).toBe(1);
    expect(complaints).toContain("npx wrangler login");
    expect((await state()).calls).toHaveLength(1);
  });

  it("changes nothing if the platform does not say which secrets there are", async () => {
    await goLive();
    const before = (await state()).secrets;
    await set({ answers: false, calls: [] });
    const { code, complaints } = await goLive();
    const after = await state();
    expect([code, after.secrets]).toEqual([1, before]);
    expect(complaints).toContain("the request took too long");
    expect(after.calls.map(({ args }) => args[0])).toEqual(["whoami", "secret"]);
  });

  it("passes on why a deployment failed, with no secret set", async () => {
    await set({ builds: false });
    const { code, complaints } = await goLive();
    expect(code).toBe(1);
    expect(complaints).toContain("the build failed");
    expect((await state()).secrets).toEqual({});
  });
});
