/** Timed copies of a store that is in use, so that a broken disk or a stolen laptop costs minutes and not the day. */
import { copyFile, mkdir, readdir, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { backup, DatabaseSync } from "node:sqlite";

const EVERY_MS = 5 * 60_000;
const COPIES_KEPT = 24;

/** A copy is named by the instant it was made: 2027-06-12T14-05-00Z. */
const COPY = /^\d{4}-\d\d-\d\dT\d\d-\d\d-\d\dZ$/;
const UNFINISHED = ".unfinished";

const nameAt = (now: Date): string =>
  now
    .toISOString()
    .replace(/\.\d+Z$/, "Z")
    .replaceAll(":", "-");

/** The finished copies in a folder, oldest first; empty if there is no such folder. */
export async function copiesIn(folder: string): Promise<readonly string[]> {
  const names = await readdir(folder).catch(() => []);
  return names.filter((name) => COPY.test(name)).sort();
}

/** Files of a store that a copy has: databases whole, without the parts that belong to a database in use. */
async function filesOf(data: string): Promise<readonly string[]> {
  const files = await readdir(data, { recursive: true, withFileTypes: true });
  return files
    .filter((file) => file.isFile() && /\.(?:sqlite|json)$/.test(file.name))
    .map((file) => join(file.parentPath, file.name).slice(data.length + 1))
    .filter((path) => !path.startsWith("cache"));
}

/**
 * Copies a store while it is in use, and deletes all but the newest 24 copies. Each database is copied at one instant by
 * SQLite's own backup; a copy has its name only once it is whole. Returns the name. Throws if the folder cannot be written.
 */
export async function copyStore(data: string, folder: string, now: Date): Promise<string> {
  const unfinished = join(folder, UNFINISHED);
  await rm(unfinished, { recursive: true, force: true });
  for (const path of await filesOf(data)) {
    const [from, to] = [join(data, path), join(unfinished, path)];
    await mkdir(dirname(to), { recursive: true, mode: 0o700 });
    if (!path.endsWith(".sqlite")) {
      await copyFile(from, to);
      continue;
    }
    const database = new DatabaseSync(from, { readOnly: true });
    try {
      await backup(database, to);
    } finally {
      database.close();
    }
  }
  const name = nameAt(now);
  await rename(unfinished, join(folder, name));
  const copies = await copiesIn(folder);
  for (const old of copies.slice(0, -COPIES_KEPT)) await rm(join(folder, old), { recursive: true });
  return name;
}

/**
 * Copies the store now and every five minutes until the process ends. A failure is reported once, until a copy
 * succeeds.
 */
export function keepCopies(data: string, folder: string, tell: (line: string) => void): void {
  let told = "";
  let busy = false;
  const copy = async (): Promise<void> => {
    if (busy) return;
    busy = true;
    try {
      await copyStore(data, folder, new Date());
      told = "";
    } catch (error) {
      const line = `No copy of the store could be written to ${folder}: ${String(error)}. Check the folder or stick.`;
      if (line !== told) tell(line);
      told = line;
    } finally {
      busy = false;
    }
  };
  void copy();
  setInterval(() => void copy(), EVERY_MS).unref();
}
