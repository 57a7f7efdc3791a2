/**
 * `npm run golive`: deploys stallpress to the account that wrangler is logged in to, sets the secrets that are missing, waits
 * until it is healthy, and prints the link to start with. It can be repeated and changes nothing that is right.
 * `-- --check` does everything but send; `-- --new-owner-secret` replaces an owner's secret that was lost.
 */
import { randomBytes } from "node:crypto";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { parseArgs } from "node:util";
import { z } from "zod";
import { terminalCode } from "../code.ts";
import { type Ran, wrangler } from "./wrangler.ts";

const SECRETS = ["KEY_SECRET", "OWNER_SECRET"] as const;
const HEALTH_TRIES = 60;
const HEALTH_PAUSE_MS = 1500;

const Listed = z.array(z.looseObject({ name: z.string() }));
const Deployed = z.looseObject({ type: z.literal("deploy"), targets: z.array(z.string()).min(1) });
const Health = z.looseObject({ ok: z.boolean(), faults: z.array(z.string()) });

const say = (text: string): void => console.log(text);

/** Ends the command: what happened, and what to do next. */
function stop(what: string, ran?: Ran): never {
  console.error(`${what}${ran === undefined ? "" : `\n\n${ran.complaints.trim() || ran.out.trim()}`}`);
  process.exit(1);
}

async function expectLogin(): Promise<void> {
  const { code } = await wrangler(["whoami", "--json"]);
  if (code !== 0) stop("wrangler is not logged in. Run `npx wrangler login`, then this command again.");
  say("✓ wrangler is logged in");
}

/** wrangler's message if the worker was never deployed. */
const NEVER_DEPLOYED = /Worker "[^"]*".* not found/;

/**
 * The secrets that the worker already has; none before its first deployment. Any other failure ends the command: a new
 * KEY_SECRET in place of one that is there would end every link of a running fair.
 */
async function secretsSet(): Promise<ReadonlySet<string>> {
  const ran = await wrangler(["secret", "list", "--format", "json"]);
  if (ran.code === 0) return new Set(Listed.parse(JSON.parse(ran.out)).map(({ name }) => name));
  if (NEVER_DEPLOYED.test(ran.complaints + ran.out)) return new Set();
  return stop(
    "The worker's secrets could not be listed; nothing was changed. Run this command again. wrangler says:",
    ran,
  );
}

/** Deploys and gives the worker's address. */
async function deploy(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "stallpress-golive-"));
  const report = join(folder, "report");
  try {
    const ran = await wrangler(["deploy"], { environment: { WRANGLER_OUTPUT_FILE_PATH: report } });
    if (ran.code !== 0) stop("The deployment failed; nothing else was changed. wrangler says:", ran);
    const lines = (await readFile(report, "utf8")).split("\n").filter((line) => line !== "");
    const target = lines
      .map((line) => Deployed.safeParse(JSON.parse(line)))
      .flatMap(({ data }) => (data === undefined ? [] : data.targets))
      .find((one) => one.includes("."));
    if (target === undefined)
      stop("It is deployed, but wrangler named no address. Look for it on the platform's pages.");
    const address = target.includes("://") ? target : `https://${target}`;
    say(`✓ deployed to ${address}`);
    return address;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Makes a secret and sets it; the value is never written to disk. */
async function setSecret(name: string): Promise<string> {
  const value = randomBytes(32).toString("base64url");
  const ran = await wrangler(["secret", "put", name], { input: value });
  if (ran.code !== 0) stop(`${name} could not be set. Run this command again. wrangler says:`, ran);
  say(`✓ ${name} is set`);
  return value;
}

async function healthOf(address: string): Promise<z.infer<typeof Health>> {
  try {
    return Health.parse(await (await fetch(`${address}/v1/health`)).json());
  } catch (error) {
    return { ok: false, faults: [`${address} does not answer yet: ${String(error)}`] };
  }
}

async function waitUntilHealthy(address: string): Promise<void> {
  for (let tries = 1; ; tries++) {
    const { ok, faults } = await healthOf(address);
    if (ok) return say("✓ the worker and its store answer");
    if (tries === HEALTH_TRIES) stop(["The worker is deployed and not healthy:", ...faults].join("\n"));
    await pause(HEALTH_PAUSE_MS);
  }
}

const { values } = parseArgs({
  options: {
    check: { type: "boolean", default: false },
    "new-owner-secret": { type: "boolean", default: false },
  },
});
await expectLogin();
const has = await secretsSet();
const toSet = SECRETS.filter(
  (name) => !has.has(name) || (name === "OWNER_SECRET" && values["new-owner-secret"]),
);

if (values.check) {
  const ran = await wrangler(["deploy", "--dry-run"]);
  if (ran.code !== 0) stop("The worker cannot be built. wrangler says:", ran);
  say("✓ the worker builds");
  for (const name of SECRETS)
    say(toSet.includes(name) ? `→ ${name} will be made and set` : `✓ ${name} is set`);
  say("Nothing was sent. To go live: npm run golive");
} else {
  const address = await deploy();
  const made: Partial<Record<string, string>> = {};
  for (const name of toSet) made[name] = await setSecret(name);
  await waitUntilHealthy(address);
  const owner = made["OWNER_SECRET"];
  if (owner === undefined) {
    say(`
Open ${address}/start and type the owner's secret to make a fair.
If nobody has the secret any more: npm run golive -- --new-owner-secret`);
  } else {
    const begin = `${address}/start#${new URLSearchParams({ owner, reach: address })}`;
    say(`
Open this link to make your first fair. It holds the owner's secret and is shown this once: keep it like cash.

  ${begin}

${terminalCode(begin)}`);
  }
}
