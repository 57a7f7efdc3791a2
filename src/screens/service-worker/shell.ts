/** What a worker fetches to keep: pages' shells, and the assets that they name. */

const NAMED = /(?:href|src)="(\/assets\/[^"?#]+)"/g;

/** The assets that a shell names. */
export const assetsIn = (shell: string): ReadonlySet<string> =>
  new Set([...shell.matchAll(NAMED)].flatMap(([, asset]) => asset ?? []));

/** From the network, past the browser's own cache; a refusal is as bad as no answer. */
export async function fresh(path: string): Promise<Response> {
  const response = await fetch(path, { cache: "no-cache", credentials: "omit" });
  if (!response.ok) throw new Error(`${path} answered ${response.status}`);
  return response;
}
