/** `npm run demo`: the example fair, with a link to every screen; with `-- --crowd`, a crowd to watch. */
import { readFile, writeFile } from "node:fs/promises";
import { Client } from "./client.ts";
import { terminalCode } from "./code.ts";
import { playCrowd } from "./crowd.ts";
import { type LoadedFair, loadExample } from "./example.ts";
import { run, stopOnSignal } from "./run.ts";
import { localSettings } from "./settings.ts";

const SEED = 7;

const settings = localSettings(".data/demo");
const crowd = process.argv.includes("--crowd");
const { served, here, reachable, secrets, phones } = await run(settings, { fair: "brackenfield" });
stopOnSignal(served);
const fair = await demoFair();
const [tern] = fair.stalls;
if (tern === undefined) throw new Error("the example fair has no stall");

/** The fair of an earlier run if its day is not over, else a new one, so that a day's data survives a restart. */
async function demoFair(): Promise<LoadedFair> {
  const file = `${settings.data}/demo.json`;
  const kept = await readFile(file, "utf8").then(
    (text) => JSON.parse(text) as { until: number; fair: LoadedFair },
    () => null,
  ); // written below
  if (kept !== null && Date.now() < kept.until) return kept.fair;
  const name = kept === null ? "brackenfield" : `brackenfield-${Date.now().toString(36)}`;
  const made = await loadExample(new Client(here, secrets.OWNER_SECRET), Date.now(), name);
  await writeFile(file, JSON.stringify({ until: Date.now() + 10 * 3_600_000, fair: made }), { mode: 0o600 });
  return made;
}

const at = `${fair.fair}/${tern.stall}`;
const links = [
  ["order here (for customers)", `/at/${at}`],
  ["pickup board", `/at/${at}/board`],
  ["press screen", `/crew/${at}#key=${tern.key}`],
  ["counter", `/crew/${at}/counter#key=${tern.key}`],
  ["close-out", `/crew/${at}/closeout#key=${tern.key}`],
  ["organiser", `/fair/${fair.fair}#key=${fair.key}`],
  ["plan the day before", "/plan"],
  ...(phones === null ? [] : [["pretend phones (texts)", `/phones#key=${phones}`] as const]),
] as const;

console.log(`
The demo is running, its data in ${settings.data} (delete that folder to start again).

${links.map(([name, path]) => `  ${name.padEnd(28)} ${here}${path}`).join("\n")}

A phone on the same network orders at ${reachable}/at/${at}:

${terminalCode(`${reachable}/at/${at}`)}

${crowd ? "A crowd is ordering and a crew is pressing." : "Add `-- --crowd` to see every screen alive."} Stop with Ctrl+C.`);

if (crowd) {
  const { signal } = new AbortController();
  await playCrowd({ client: new Client(here), fair, seed: SEED, everySeconds: 12, pressSeconds: 15, signal });
}
