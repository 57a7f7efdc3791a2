/** Has the crew pages of this stall kept in the browser, so that they open without a network. */
import { byId, pageData } from "../kit/dom.ts";

const WORKER = "/crew/service-worker.js";
const LOOK_FOR_NEWER = 30 * 60 * 1000;
const TRY_AGAIN = 5 * 1000;

/**
 * Browsers allow this on https and on localhost only, and some not in a private window. Elsewhere the page works too,
 * until it is reloaded without a network.
 */
export async function keepPages(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  const { serviceWorker } = navigator;
  const hadOne = serviceWorker.controller !== null;
  serviceWorker.addEventListener("controllerchange", () => {
    // The first worker changes nothing; a later one is from a newer build than this page.
    if (hadOne) byId("newer").hidden = false;
  });
  byId("newer-load").addEventListener("click", () => location.reload());
  const home = `/crew/${pageData("fair")}/${pageData("stall")}`;
  const keep = async (): Promise<void> => {
    try {
      const registration = await serviceWorker.register(WORKER);
      const { active } = await serviceWorker.ready;
      active?.postMessage({ keep: [home, `${home}/counter`] });
      setInterval(() => void registration.update().catch(() => {}), LOOK_FOR_NEWER);
    } catch (error) {
      // A browser that refuses does so for good; a network that failed may be back soon.
      if (error instanceof TypeError) setTimeout(() => void keep(), TRY_AGAIN);
    }
  };
  await keep();
}
