/** The secrets of a local deployment: made once, kept beside the store, so that links survive a restart. */
import { randomBytes } from "node:crypto";
import { mkdir, readFile, writeFile } from "node:fs/promises";

export type Secrets = {
  readonly KEY_SECRET: string;
  readonly OWNER_SECRET: string;
  readonly GATEWAY_SECRET: string;
};

const fresh = (): string => randomBytes(24).toString("base64url");

/** Reads the folder's secrets, making them the first time. */
export async function localSecrets(data: string): Promise<Secrets> {
  const file = `${data}/secrets.json`;
  try {
    return JSON.parse(await readFile(file, "utf8")) as Secrets; // written below, by this program
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") throw error;
  }
  const secrets: Secrets = { KEY_SECRET: fresh(), OWNER_SECRET: fresh(), GATEWAY_SECRET: fresh() };
  await mkdir(data, { recursive: true });
  await writeFile(file, `${JSON.stringify(secrets, null, 2)}\n`, { mode: 0o600 });
  return secrets;
}
