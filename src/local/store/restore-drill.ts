/** `npm run restore-drill`: proves that the newest copy of the store opens, on a copy of that copy. */
import { cp, mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { Client } from "../client.ts";
import { localSecrets } from "../secrets.ts";
import { serve } from "../serve.ts";
import { copiesFolder } from "../settings.ts";
import { copiesIn } from "./copies.ts";
import { type Opened, openStalls } from "./look-inside.ts";

/** Alarms of the copy must not ring here: they would send its texts a second time. */
const ALARMS = "metadata.sqlite";

/** Rows of every object of a kind; throws if a database is damaged. */
async function rowsOf(folder: string): Promise<{ readonly objects: number; readonly rows: number }> {
  const files = (await readdir(folder).catch(() => [])).filter((name) => name.endsWith(".sqlite"));
  let rows = 0;
  for (const file of files) {
    const database = new DatabaseSync(join(folder, file), { readOnly: true });
    try {
      const [check] = database.prepare("PRAGMA integrity_check").all();
      if (check?.["integrity_check"] !== "ok") throw new Error(`${file} is damaged`);
      rows += Number(database.prepare("SELECT count(*) AS rows FROM _cf_KV").get()?.["rows"] ?? 0);
    } finally {
      database.close();
    }
  }
  return { objects: files.length, rows };
}

/** Hosts that texts may go to: none. */
const NOWHERE = { GATEWAY_HOSTS: "nothing-is-sent.invalid" };

function lineOf({ fair, name, counts }: Opened): string {
  if (counts === null) return `  ${name} at ${fair}: not set up yet`;
  return `  ${name} at ${fair}: garments waiting ${counts.waiting}, on a press ${counts.pressing}; orders ready ${counts.ready}`;
}

const folder = copiesFolder();
const newest = (await copiesIn(folder)).at(-1);
if (newest === undefined)
  throw new Error(`There is no copy in ${folder}. npm start writes one every five minutes.`);

const data = await mkdtemp(join(tmpdir(), "stallpress-drill-"));
try {
  await cp(join(folder, newest), data, { recursive: true });
  for (const kind of ["Stall", "Fair"])
    await rm(join(data, "do", `stallpress-${kind}`, ALARMS), { force: true });
  const stalls = await rowsOf(join(data, "do", "stallpress-Stall"));
  const fairs = await rowsOf(join(data, "do", "stallpress-Fair"));
  const secrets = await localSecrets(data);
  const served = await serve({ port: 0, host: "127.0.0.1", data, secrets: { ...secrets, ...NOWHERE } });
  let opened: readonly Opened[];
  try {
    const anyone = new Client(served.url);
    const health = await anyone.get<{ ok: boolean; faults: readonly string[] }>("/v1/health");
    if (!health.body.ok) throw new Error(`The copy ${newest} does not open. ${health.body.faults.join(" ")}`);
    opened = await openStalls(anyone, join(data, "do", "stallpress-Fair"), secrets.KEY_SECRET);
  } finally {
    await served.stop();
  }
  console.log(
    `The copy ${newest} opens, and no file is damaged. Stall files: ${stalls.objects} (rows: ${stalls.rows}). Fair files: ${fairs.objects} (rows: ${fairs.rows}).
${opened.length === 0 ? "It has no stall yet." : `Its stalls answer their crew's key:\n\n${opened.map(lineOf).join("\n")}`}

Nothing was sent from it. To use it, stop npm start and start it on the copy:

  STALLPRESS_DATA=${join(folder, newest)} npm start`,
  );
} finally {
  await rm(data, { recursive: true, force: true });
}
