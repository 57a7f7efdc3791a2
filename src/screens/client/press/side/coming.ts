/** What the operator sees coming: the line, what is short, whom to call out. */
import type { JobView, QueueView } from "../../../../model/orders/order.ts";
import { garmentWords, temperature } from "../../crew/words/settings.ts";
import { showRest } from "../../crew/words/texts-rest.ts";
import { byId, element } from "../../kit/dom.ts";

const SHOWN = 8;

function stub(job: JobView, platen: string | null): HTMLElement {
  const isElsewhere = platen !== null && job.platen !== platen;
  const elsewhere = isElsewhere
    ? ` (${job.platen} platen)`
    : job.stage === "reserved"
      ? ", reserved"
      : job.letGo.map(({ press }) => `, maybe at press ${press}`).join("");
  return element(
    "li",
    { class: isElsewhere ? "elsewhere" : "" },
    element("b", {}, job.job),
    element("span", {}, `${garmentWords(job)}${elsewhere}`),
    element(
      "span",
      { class: "small" },
      `${job.designName}, ${temperature(job.settings.temperatureFahrenheit)}`,
    ),
  );
}

function countsLine({ counts }: QueueView): string {
  const parts = [`${counts.waiting} waiting`, `${counts.pressing} pressing`, `${counts.ready} ready`];
  if (counts.short > 0) parts.push(`${counts.short} short`);
  if ((counts.toClaim ?? 0) > 0) parts.push(`${counts.toClaim} to claim`);
  if (counts.toPay > 0) parts.push(`${counts.toPay} to pay`);
  return parts.join(" · ");
}

/** Fills the side of the screen; `press` is this tablet's own. */
export function showComing(queue: QueueView, press: string): void {
  const own = queue.presses.find((candidate) => candidate.press === press);
  byId("counts").textContent = countsLine(queue);
  showRest(queue);
  byId("call-out").hidden = queue.notTold.length === 0;
  byId("call-out").textContent = `Call out, no text reached them: ${queue.notTold.join(", ")}`;
  const platen = own?.platen ?? null;
  const coming = [...(own?.reserve ?? []), ...queue.next].slice(0, SHOWN);
  byId("coming").replaceChildren(...coming.map((job) => stub(job, platen)));
  const more = queue.counts.waiting - coming.length;
  byId("coming-more").textContent =
    queue.counts.waiting === 0 ? "Nobody waits." : more > 0 ? `and ${more} more` : "";
  byId("short-part").hidden = queue.short.length === 0;
  byId("short").replaceChildren(...queue.short.map((job) => stub(job, null)));
}
