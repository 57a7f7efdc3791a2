/** The organiser's page: every stall's pace. */
import type { Throughput } from "../../../model/fair/throughput.ts";
import { apiAt, detailOf } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";
import { keyFor } from "../kit/key.ts";
import { poll } from "../kit/poll.ts";
import { offerDays, queryOf, type When, whenWords } from "./asking.ts";
import { drawGlance, drawTotal } from "./glance.ts";
import { drawQuarters } from "./quarters.ts";
import { giveSheet } from "./sheets.ts";
import type { Moment } from "./signs.ts";
import { stallTable } from "./table.ts";

const EVERY_SECONDS = 5;
const NO_KEY =
  "This page shows nothing without the organiser's key. Open the link that was printed when the fair was made: it carries the key.";
const OLD_KEY = "This key does not open the fair, or no longer does. Open the latest link you were given.";

const fair = pageData("fair");
const key = keyFor(`organiser ${fair}`);
const api = apiAt(`/v1/fairs/${fair}`, () => key);

/** What is on the page, and what it is the answer to. */
type Shown = { readonly query: string; readonly tag: string | null; readonly pace: Throughput };
let shown: Shown | null = null;
let when: When = "today";
let chosen: string | null = null;
let again: () => void = () => undefined;
const table = stallTable((stall) => choose(stall === chosen ? null : stall));

function trouble(detail: string | null): void {
  byId("trouble").hidden = detail === null;
  byId("trouble").textContent = detail ?? "";
}

/** Draws what has changed; who has gone quiet also shows while nothing is heard. */
function draw({ pace }: Shown, now: number, isNew: boolean): void {
  const moment: Moment = { now, open: pace.open };
  drawGlance(pace, moment);
  if (isNew) drawAnswer(pace, now);
  // Last: the chart asks how wide it may be, which is quickly told before the long table stands.
  table.draw(pace.stalls, moment, chosen);
}

function drawAnswer(pace: Throughput, now: number): void {
  byId("account").hidden = false;
  byId("fair-name").textContent = pace.fair;
  document.title = pace.fair;
  offerDays(pace);
  byId("of-when").textContent = whenWords(when, pace);
  drawTotal(pace);
  drawQuarters(pace, chosen, now);
}

async function look(): Promise<boolean> {
  const query = queryOf(when, chosen);
  const have = shown?.query === query ? shown.tag : null;
  const reply = await api(`/throughput?${query}`, { have });
  if (reply.status === 0) return false;
  if (reply.status === 401 || reply.status === 403) trouble(OLD_KEY);
  else trouble(reply.status === 200 || reply.status === 304 ? null : detailOf(reply));
  if (query !== queryOf(when, chosen)) return true; // another question was asked meanwhile
  if (reply.status === 200) shown = { query, tag: reply.tag, pace: reply.body as Throughput }; // as the route documents
  if (shown !== null) draw(shown, reply.date ?? Date.parse(shown.pace.asOf), reply.status === 200);
  return true;
}

if (key === null) {
  trouble(NO_KEY);
  byId("freshness").textContent = "";
} else {
  start(key);
}

function choose(stall: string | null): void {
  chosen = stall;
  again();
}

function start(own: string): void {
  const polling = poll({ everySeconds: EVERY_SECONDS, look });
  again = polling.now;
  byId("when").addEventListener("change", ({ target }) => {
    if (!(target instanceof HTMLSelectElement)) return;
    when = target.value;
    polling.now();
  });
  byId("all-stalls").addEventListener("click", () => choose(null));
  byId("print").addEventListener("click", () => window.print());
  for (const per of ["stall", "quarter"] as const) {
    byId(`sheet-${per}`).addEventListener("click", async () => {
      const query = `${queryOf(when, per === "quarter" ? chosen : null)}&per=${per}`;
      trouble(await giveSheet(`/v1/fairs/${fair}/throughput?${query}`, own));
    });
  }
}
