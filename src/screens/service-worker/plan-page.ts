/**
 * Opens the planning page without a network. It keeps the page's shell and all that it runs, of one build; while there
 * is a network, everything comes from there. The figures typed are the page's own, and no answer of a stall is kept.
 */
export {};

declare const self: ServiceWorkerGlobalScope;
/** Names the build; put in when the browser's files are built. */
declare const BUILD: string;

const FAMILY = "planner ";
const OURS = FAMILY + BUILD;
const SHELL = "/plan";
/** Started by the page's script, so the shell does not name it. */
const PLANNER = "/assets/plan-worker.js";
const NAMED = /(?:href|src)="(\/assets\/[^"?#]+)"/g;

/** From the network, past the browser's own cache; a refusal is as bad as no answer. */
async function fresh(path: string): Promise<Response> {
  const response = await fetch(path, { cache: "no-cache", credentials: "omit" });
  if (!response.ok) throw new Error(`${path} answered ${response.status}`);
  return response;
}

async function keepAll(): Promise<void> {
  const shell = await fresh(SHELL);
  const text = await shell.clone().text();
  const named = new Set([...text.matchAll(NAMED)].flatMap(([, asset]) => asset ?? []));
  const cache = await caches.open(OURS);
  await Promise.all([...named, PLANNER].map(async (asset) => cache.put(asset, await fresh(asset))));
  await cache.put(SHELL, shell);
}

self.addEventListener("install", (event) => {
  event.waitUntil(keepAll().then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  const tidy = async (): Promise<void> => {
    const older = (await caches.keys()).filter((name) => name.startsWith(FAMILY) && name !== OURS);
    await Promise.all(older.map((name) => caches.delete(name)));
  };
  event.waitUntil(tidy());
});

/** The network's answer; without a network, the kept copy. */
async function answer(request: Request, path: string): Promise<Response> {
  try {
    return await fetch(request);
  } catch (error) {
    const kept = await (await caches.open(OURS)).match(path);
    if (kept === undefined) throw error;
    return kept;
  }
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  const isShell = request.mode === "navigate" && pathname === SHELL;
  if (isShell || pathname.startsWith("/assets/")) event.respondWith(answer(request, pathname));
});
