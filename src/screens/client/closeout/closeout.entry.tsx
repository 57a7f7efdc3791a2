/** @jsxImportSource preact */
/** The close-out: a day's account read, its costs typed, the day closed or opened again. */

import { render } from "preact";
import type { Closeout } from "../../../model/accounts/closeout.ts";
import { dayInWords } from "../../../time/day-in-words.ts";
import { keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { type Api, detailOf } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";
import { giveFile } from "../kit/file.ts";
import { spellAs } from "../kit/spelling.ts";
import { costForm, costsTyped } from "./costs.ts";
import { movedAway } from "./moved.ts";
import { moving } from "./save-and-load.ts";
import { type Actions, crowdTyped, firstState, type State } from "./state.ts";
import { Account } from "./view.tsx";
import { writer } from "./writes.ts";

function start(api: Api): void {
  const post = writer(api);
  let state: State | null = null;

  function show(now: State): void {
    state = now;
    const { stall, day, currency } = now.account;
    spellAs(currency);
    byId("account").hidden = false;
    byId("title").textContent = `Close-out, ${stall}, ${dayInWords(day)}`;
    document.title = `Close-out ${day}`;
    render(<Account state={now} actions={actions} />, byId("of-day"));
  }

  async function look(day: string | null): Promise<void> {
    const [reply, menu] = await Promise.all([
      api(day === null ? "/closeout" : `/closeout?day=${day}`),
      state === null ? wholeMenu(api) : Promise.resolve(state.menu),
    ]);
    if (keyRefused(reply)) return;
    byId("load").hidden = menu !== null || reply.status === 0;
    if (reply.status !== 200 || menu === null) return notice(detailOf(reply));
    const account = reply.body as Closeout; // as the route documents
    show(state?.account.day === account.day ? { ...state, account } : firstState(account, menu));
  }

  /** Sends a write about the day that is shown, says what became of it, and looks again. */
  async function write(path: string, body: object, says: string): Promise<boolean> {
    if (state === null) return false;
    const { day } = state.account;
    const reply = await post(path, { day, ...body });
    if (keyRefused(reply)) return false;
    const good = reply.status === 200;
    notice(good ? says : `${detailOf(reply)} Nothing that you typed is lost.`);
    if (good) await look(day);
    return good;
  }

  async function keepCosts(): Promise<void> {
    if (state === null) return;
    const { account, menu, written } = state;
    const read = costsTyped(costForm(account, menu), written, account, menu);
    show({ ...state, costsFault: "fault" in read ? `${read.fault}.` : "" });
    if ("fault" in read || !(await write("/closeout/costs", read, "Costs saved."))) return;
    // What was typed while they were sent stays.
    actions.change((before) => (before.written === written ? { ...before, written: {} } : before));
  }

  const actions: Actions = {
    stockPage: `/crew/${pageData("fair")}/${pageData("stall")}/stock`,
    change: (to) => {
      if (state !== null) show(to(state));
    },
    look: (day) => {
      notice(null);
      void look(day);
    },
    keepCosts: () => void keepCosts(),
    keepCrowd: () => {
      if (state === null) return;
      const crowd = crowdTyped(state);
      if (crowd === undefined) return notice(`“${state.passersBy}” isn’t a number of people.`);
      void write("/closeout/crowd", { crowd }, crowd === null ? "Taken out." : "The number is kept.");
    },
    close: () => {
      actions.change((before) => ({ ...before, asking: null }));
      void write("/closeout/close", {}, `${state?.account.day} is closed.`);
    },
    reopen: () => {
      const reason = state?.reason.trim() ?? "";
      actions.change((before) => ({ ...before, asking: null, reason: "" }));
      void write("/closeout/reopen", { reason }, `${state?.account.day} is open again.`);
    },
    takeOff: (key) => {
      actions.change((before) => ({ ...before, missing: null }));
      void post(`/rack/${key}/unracked`, { as: "thrown" }).then((reply) => {
        notice(reply.status === 200 ? "Taken off the rack." : detailOf(reply));
        return look(state?.account.day ?? null);
      });
    },
    saveSheet: async () => {
      const day = state?.account.day;
      const reply = await api(`/closeout?day=${day}`, { accept: "text/csv" });
      if (reply.status !== 200) return notice(detailOf(reply));
      giveFile(`closeout-${day}.csv`, "text/csv", String(reply.body));
    },
    saveLessons: async () => {
      const reply = await api("/lessons");
      if (reply.status !== 200) return notice(detailOf(reply));
      giveFile("lessons.json", "application/json", JSON.stringify(reply.body, null, 2));
      notice("Load that file on the planning page: the next plan begins from it.");
    },
  };
  movedAway(api, notice);
  moving(api, { say: notice, again: () => void look(null) });
  void look(null);
}

const crew = openCrew();
if (crew !== null) start(crew.api);
