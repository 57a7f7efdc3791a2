/** The organiser's page: every stall's pace. */
import type { Throughput } from "../../model/throughput.ts";
import { apiAt, detailOf } from "./kit/api.ts";
import { byId, element, pageData } from "./kit/dom.ts";
import { keyFor } from "./kit/key.ts";
import { poll } from "./kit/poll.ts";
import { everyQuarter, type Quarter } from "./organiser/buckets.ts";
import { clockOf, type PaceChart, paceChart } from "./organiser/chart.ts";
import { drawGlance } from "./organiser/glance.ts";
import { stallTable } from "./organiser/table.ts";

const EVERY_SECONDS = 5;
const NO_KEY =
  "This page shows nothing without the organiser's key. Open the link that was printed when the fair was made: it carries the key.";
const OLD_KEY = "This key does not open the fair, or no longer does. Open the latest link you were given.";

const fair = pageData("fair");
const key = keyFor(`organiser ${fair}`);
const api = apiAt(`/v1/fairs/${fair}`, () => key);
const table = stallTable();
let chart: PaceChart | null = null;

function trouble(detail: string | null): void {
  byId("trouble").hidden = detail === null;
  byId("trouble").textContent = detail ?? "";
}

function drawBuckets(quarters: readonly Quarter[], timeZone: string): void {
  const clock = clockOf(timeZone);
  const day = new Intl.DateTimeFormat(undefined, { weekday: "short", timeZone });
  const number = (value: number): HTMLElement => element("td", { class: "number" }, String(value));
  byId("clock").textContent = `Times are the fair's own, ${timeZone}. The latest is on top.`;
  const rows = quarters.toReversed().map(({ start, placed, pressed, collected, backlog }) => {
    const at = new Date(start);
    const time = element("time", { datetime: start }, `${day.format(at)} ${clock.format(at)}`);
    return element(
      "tr",
      {},
      element("th", { scope: "row" }, time),
      ...[placed, pressed, collected, backlog].map(number),
    );
  });
  byId<HTMLTableElement>("buckets").tBodies[0]?.replaceChildren(...rows);
}

function show(pace: Throughput): void {
  const now = Date.parse(pace.asOf);
  byId("account").hidden = false;
  byId("fair-name").textContent = pace.fair;
  document.title = pace.fair;
  drawGlance(pace, now);
  table.draw(pace.stalls, now);
  const quarters = everyQuarter(pace.buckets, now);
  drawBuckets(quarters, pace.timeZone);
  chart ??= paceChart(pace.timeZone);
  chart.draw(quarters);
}

async function look(): Promise<boolean> {
  const reply = await api("/throughput");
  if (reply.status === 0) return false;
  if (reply.status === 401 || reply.status === 403) trouble(OLD_KEY);
  else trouble(reply.status === 200 ? null : detailOf(reply));
  if (reply.status === 200) show(reply.body as Throughput); // as the route documents
  return true;
}

if (key === null) {
  trouble(NO_KEY);
  byId("freshness").textContent = "";
} else {
  poll({ everySeconds: EVERY_SECONDS, look });
}
