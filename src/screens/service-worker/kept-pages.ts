/**
 * Keeps pages' shells and all that they run, of one build, so that they open without a network. While there is a network,
 * everything comes from there. No answer of a stall is kept.
 */
import { assetsIn, fresh } from "./shell.ts";

declare const self: ServiceWorkerGlobalScope;
/** Names the build; put in when the browser's files are built. */
declare const BUILD: string;

type Kept = {
  /** Begins the names of its caches; no other worker's may begin so. */
  readonly family: string;
  readonly pages: readonly string[];
  /** Pages that a kept one names, beside its assets. */
  readonly alsoPages?: RegExp;
  /** Assets that no shell names, since a script starts them. */
  readonly assets?: readonly string[];
};

/** The network's answer; without a network, the kept copy. */
async function answer(cacheName: string, request: Request, path: string): Promise<Response> {
  try {
    return await fetch(request);
  } catch (error) {
    const kept = await (await caches.open(cacheName)).match(path);
    if (kept === undefined) throw error;
    return kept;
  }
}

/** Starts the worker. */
export function keepPages({ family, pages, alsoPages, assets = [] }: Kept): void {
  const ours = family + BUILD;
  const keepAll = async (): Promise<void> => {
    const cache = await caches.open(ours);
    const first = await Promise.all(pages.map(async (path) => (await fresh(path)).text()));
    const named = first.flatMap((text) => [...(alsoPages === undefined ? [] : text.matchAll(alsoPages))]);
    const shells = new Set([...pages, ...named.flatMap(([, path]) => path ?? [])]);
    const used = new Set(assets);
    await Promise.all(
      [...shells].map(async (path) => {
        const shell = await fresh(path);
        for (const asset of assetsIn(await shell.clone().text())) used.add(asset);
        await cache.put(path, shell);
      }),
    );
    await Promise.all([...used].map(async (asset) => cache.put(asset, await fresh(asset))));
  };
  const isKept = (path: string): boolean =>
    pages.includes(path) || (alsoPages !== undefined && pages.some((page) => path.startsWith(`${page}/`)));

  self.addEventListener("install", (event) => {
    event.waitUntil(keepAll().then(() => self.skipWaiting()));
  });
  self.addEventListener("activate", (event) => {
    const tidy = async (): Promise<void> => {
      const older = (await caches.keys()).filter((name) => name.startsWith(family) && name !== ours);
      await Promise.all(older.map((name) => caches.delete(name)));
    };
    event.waitUntil(tidy());
  });
  self.addEventListener("fetch", (event) => {
    const { request } = event;
    const { origin, pathname } = new URL(request.url);
    if (request.method !== "GET" || origin !== self.location.origin) return;
    if (isKept(pathname) || pathname.startsWith("/assets/"))
      event.respondWith(answer(ours, request, pathname));
  });
}
