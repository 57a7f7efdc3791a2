/** @jsxImportSource preact */
/** The organiser's page: every stall's pace. */

import { render } from "preact";
import type { Throughput } from "../../../model/fair/throughput.ts";
import { apiAt, detailOf } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";
import { keyFor } from "../kit/key.ts";
import { poll } from "../kit/poll.ts";
import { spellIn, spelt } from "../kit/spelling.ts";
import { queryOf } from "./asking.ts";
import { beside } from "./beside/keeping.ts";
import { giveSheet } from "./sheets.ts";
import { type Actions, AT_ONCE, firstState, type State } from "./state.ts";
import { Fair } from "./view.tsx";
import { organiserWord } from "./word/word.tsx";

spellIn(navigator.language);

const EVERY_SECONDS = 5;
const NO_KEY = spelt(
  "This page shows nothing without the organiser's key. Open the link that was printed when the fair was made: it carries the key.",
);
const OLD_KEY = "This key does not open the fair, or no longer does. Open the latest link you were given.";

function trouble(detail: string | null): void {
  byId("trouble").hidden = detail === null;
  byId("trouble").textContent = detail ?? "";
}

function start(fair: string, key: string): void {
  const api = apiAt(`/v1/fairs/${fair}`, () => key);
  const root = byId("account");
  let asked: State["answered"] = { when: "today", chosen: null };
  let tag: { readonly query: string; readonly tag: string | null } | null = null;
  let state: State | null = null;

  function show(now: State): void {
    state = now;
    root.hidden = false;
    byId("fair-name").textContent = now.pace.fair;
    document.title = now.pace.fair;
    render(<Fair state={now} actions={actions} />, root);
    // The rest of a long table follows when its first rows are on the screen.
    if (now.most === AT_ONCE && now.pace.stalls.length > AT_ONCE)
      requestAnimationFrame(() =>
        setTimeout(() => actions.change((before) => ({ ...before, most: Number.POSITIVE_INFINITY }))),
      );
  }

  const aside = beside(
    fair,
    api,
    (to) => actions.change((before) => ({ ...before, beside: to(before.beside) })),
    trouble,
  );
  const actions: Actions = {
    keepContact: (stall, contact) => void aside.keepContact(stall, contact),
    years: aside.actions,
    change: (to) => {
      if (state !== null) show(to(state));
    },
    ask: (what) => {
      asked = { ...asked, ...what };
      actions.change((before) => ({ ...before, ...asked }));
      polling.now();
    },
    sheet: (per) => {
      const query = `${queryOf(asked.when, per === "quarter" ? asked.chosen : null)}&per=${per}`;
      void giveSheet(`/v1/fairs/${fair}/throughput?${query}`, key).then(trouble);
    },
  };

  const lookAtWord = organiserWord(api, () => state?.pace);

  async function look(): Promise<boolean> {
    void lookAtWord();
    const now = asked;
    const query = queryOf(now.when, now.chosen);
    const reply = await api(`/throughput?${query}`, { have: tag?.query === query ? tag.tag : null });
    if (reply.status === 0) return false;
    if (reply.status === 401 || reply.status === 403) trouble(OLD_KEY);
    else trouble(reply.status === 200 || reply.status === 304 ? null : detailOf(reply));
    if (now !== asked) return true; // another question was asked meanwhile
    const pace = reply.status === 200 ? (reply.body as Throughput) : state?.pace; // as the route documents
    if (pace === undefined) return true;
    if (reply.status === 200) tag = { query, tag: reply.tag };
    // Who has gone quiet also shows while nothing is heard.
    const moment = { now: reply.date ?? Date.parse(pace.asOf), open: pace.open };
    const isFirst = state === null;
    const before = state ?? firstState(now, pace, moment, aside.first());
    show({ ...before, pace, moment, ...(reply.status === 200 ? { answered: now } : {}) });
    if (isFirst) void aside.askContacts();
    aside.look();
    return true;
  }

  const polling = poll({ everySeconds: EVERY_SECONDS, look });
}

const fair = pageData("fair");
const key = keyFor(`organiser ${fair}`);
if (key === null) {
  trouble(NO_KEY);
  byId("freshness").textContent = "";
} else start(fair, key);
