/**
 * Opens the crew pages without a network. It keeps the shells of the stalls this browser has opened, with their styles
 * and scripts, all of one build. A new build brings a new worker, which fetches its whole set before it replaces the
 * old one. Shells hold no data. Requests to the stall itself pass through: no answer and no key is ever kept here.
 */
import { assetsIn, fresh } from "./shell.ts";

declare const self: ServiceWorkerGlobalScope;
/** Names the build; put in when the browser's files are built. */
declare const BUILD: string;

const FAMILY = "crew pages ";
const OURS = FAMILY + BUILD;
/** Named by their content, so they outlive a build; some are of designs that are gone. */
const PICTURES = "pictures of designs";
const MOST_PICTURES = 120;
const isPicture = (path: string): boolean => /^\/at\/[^/]+\/[^/]+\/pictures\/[0-9a-f]{64}$/.test(path);
const isAsset = (path: string): boolean => path.startsWith("/assets/");

/** Keeps a shell and all it names; the shell last, so that one that is found is whole. */
async function keepShell(path: string): Promise<void> {
  const cache = await caches.open(OURS);
  const shell = await fresh(path);
  const named = assetsIn(await shell.clone().text());
  await Promise.all(
    [...named].map(async (asset) => {
      if ((await cache.match(asset)) === undefined) await cache.put(asset, await fresh(asset));
    }),
  );
  await cache.put(path, shell);
}

const olderCaches = async (): Promise<string[]> =>
  (await caches.keys()).filter((name) => name.startsWith(FAMILY) && name !== OURS);

/** The shells that earlier builds kept. */
async function shellsSoFar(): Promise<readonly string[]> {
  const paths = new Set<string>();
  for (const name of await olderCaches()) {
    for (const { url } of await (await caches.open(name)).keys()) paths.add(new URL(url).pathname);
  }
  return [...paths].filter((path) => !isAsset(path));
}

async function kept(path: string): Promise<Response | undefined> {
  return (await caches.open(OURS)).match(path);
}

/** A style or script for a page whose shell is kept is of the same build; for any other page it is the network's. */
async function assetFor(request: Request, clientId: string): Promise<Response> {
  const client = await self.clients.get(clientId);
  const ours = client !== undefined && (await kept(new URL(client.url).pathname)) !== undefined;
  return (ours ? await kept(new URL(request.url).pathname) : undefined) ?? fetch(request);
}

/** A picture once seen is there without a network; the oldest give way. */
async function pictureFor(path: string): Promise<Response> {
  const cache = await caches.open(PICTURES);
  const before = await cache.match(path);
  if (before !== undefined) return before;
  const response = await fetch(path, { credentials: "omit" });
  if (!response.ok) return response;
  await cache.put(path, response.clone());
  const spare = (await cache.keys()).slice(0, -MOST_PICTURES);
  await Promise.all(spare.map((request) => cache.delete(request)));
  return response;
}

self.addEventListener("install", (event) => {
  const renew = async (): Promise<void> => {
    // Where one cannot be had the old worker stays, and the browser tries again at the next visit.
    for (const path of await shellsSoFar()) await keepShell(path);
    await self.skipWaiting();
  };
  event.waitUntil(renew());
});

self.addEventListener("activate", (event) => {
  const tidy = async (): Promise<void> => {
    await Promise.all((await olderCaches()).map((name) => caches.delete(name)));
  };
  event.waitUntil(tidy());
});

/** A crew page names the shells it wants to have without a network. */
self.addEventListener("message", (event) => {
  const { keep } = event.data as { readonly keep: readonly string[] }; // posted by the crew pages only
  const learn = async (): Promise<void> => {
    for (const path of keep) if ((await kept(path)) === undefined) await keepShell(path).catch(() => {});
  };
  event.waitUntil(learn());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  if (request.mode === "navigate") event.respondWith(kept(pathname).then((shell) => shell ?? fetch(request)));
  else if (isPicture(pathname)) event.respondWith(pictureFor(pathname));
  else if (isAsset(pathname)) event.respondWith(assetFor(request, event.clientId));
});
