/** The close-out: a day's account read, its costs typed, the day closed or opened again. */

import type { Closeout } from "../../../model/accounts/closeout.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { type Api, detailOf } from "../kit/api.ts";
import { byId, element } from "../kit/dom.ts";
import { giveFile } from "../kit/file.ts";
import { costsForm, costsTyped, showCosts } from "./costs.ts";
import { movedAway } from "./moved.ts";
import { moving } from "./moving.ts";
import { closingFirst, countedWords } from "./steps.ts";
import { showAccount } from "./tables.ts";
import { writer } from "./writes.ts";

type Shown = { readonly account: Closeout; readonly menu: Menu };

const STAGES: Readonly<Record<Closeout["stage"], string>> = {
  open: "Not closed yet: the figures still move.",
  closed: "Closed: its counts are frozen. What is done now counts to the next day.",
  reopened: "Opened again: what is done now counts to this day.",
};

function start(api: Api): void {
  const post = writer(api);
  let shown: Shown | null = null;
  let typing = false;

  const show = (account: Closeout, menu: Menu): void => {
    shown = { account, menu };
    byId("account").hidden = false;
    byId("title").textContent = `Close-out, ${account.stall}, ${account.day}`;
    document.title = `Close-out ${account.day}`;
    const why = account.reopenings.map(({ reason }) => ` Opened again once: ${reason}.`).join("");
    byId("stage").textContent = STAGES[account.stage] + why;
    byId("counted").textContent = countedWords(account);
    byId("open-orders").textContent =
      account.openOrders > 0 ? `Orders not finished: ${account.openOrders}.` : "No order is open.";
    byId("close").hidden = account.stage === "closed";
    byId("reopen").hidden = account.stage !== "closed";
    const days = account.days.some(({ day }) => day === account.day)
      ? account.days
      : [...account.days, { day: account.day, closed: false }];
    byId<HTMLSelectElement>("day").replaceChildren(
      ...days.map(({ day, closed }) =>
        element("option", { value: day, selected: day === account.day }, closed ? `${day}, closed` : day),
      ),
    );
    const unpriced = byId("unpriced");
    unpriced.hidden = account.unpriced.length === 0;
    unpriced.textContent = `No cost yet for ${account.unpriced.join(", ")}: profit, waste and what is left leave them out. Type them under Costs.`;
    showAccount(account, menu);
    // What is being typed is not drawn over.
    if (!typing) showCosts(costsForm(), account, menu);
  };

  const look = async (day: string | null): Promise<void> => {
    const [reply, menu] = await Promise.all([
      api(day === null ? "/closeout" : `/closeout?day=${day}`),
      shown === null ? wholeMenu(api) : Promise.resolve(shown.menu),
    ]);
    if (keyRefused(reply)) return;
    byId("load").hidden = menu !== null || reply.status === 0;
    if (reply.status !== 200 || menu === null) return notice(detailOf(reply));
    show(reply.body as Closeout, menu); // as the route documents
  };

  /** Sends a write about the day that is shown, says what became of it, and looks again. */
  const change = async (path: string, body: object, says: string): Promise<boolean> => {
    const reply = await post(path, body);
    if (keyRefused(reply)) return false;
    const good = reply.status === 200;
    notice(good ? says : `${detailOf(reply)} Nothing that you typed is lost.`);
    if (good && shown !== null) await look(shown.account.day);
    return good;
  };

  const onDay = (act: (account: Closeout, menu: Menu) => void) => () => {
    if (shown !== null) act(shown.account, shown.menu);
  };
  byId("day").addEventListener("change", () => {
    typing = false;
    notice(null);
    void look(byId<HTMLSelectElement>("day").value);
  });
  const closing = byId<HTMLDialogElement>("close-dialog");
  byId("close").addEventListener(
    "click",
    onDay((account) => {
      byId("close-first").replaceChildren(...closingFirst(account).map((one) => element("li", {}, one)));
      closing.showModal();
    }),
  );
  byId("close-not").addEventListener("click", () => closing.close());
  byId("close-now").addEventListener(
    "click",
    onDay(({ day }) => {
      closing.close();
      void change("/closeout/close", { day }, `${day} is closed.`);
    }),
  );
  const dialog = byId<HTMLDialogElement>("reopen-dialog");
  byId("reopen").addEventListener("click", () => dialog.showModal());
  byId("reopen-not").addEventListener("click", () => dialog.close());
  byId("reopen-form").addEventListener(
    "submit",
    onDay(({ day }) => {
      const reason = byId<HTMLInputElement>("reason").value.trim();
      void change("/closeout/reopen", { day, reason }, `${day} is open again.`);
    }),
  );
  byId("print").addEventListener("click", () => window.print());
  byId("save-sheet").addEventListener(
    "click",
    onDay(async ({ day }) => {
      const reply = await api(`/closeout?day=${day}`, { accept: "text/csv" });
      if (reply.status !== 200) return notice(detailOf(reply));
      giveFile(`closeout-${day}.csv`, "text/csv", String(reply.body));
    }),
  );
  byId("save-lessons").addEventListener(
    "click",
    onDay(async () => {
      const reply = await api("/lessons");
      if (reply.status !== 200) return notice(detailOf(reply));
      giveFile("lessons.json", "application/json", JSON.stringify(reply.body, null, 2));
      notice("Load that file on the planning page: the next plan begins from it.");
    }),
  );
  movedAway(api, notice);
  moving(api, { say: notice, again: () => void look(null) });
  costsForm().addEventListener("input", () => {
    typing = true;
  });
  costsForm().addEventListener("submit", (event) => {
    event.preventDefault();
    onDay((account, menu) => {
      const read = costsTyped(account, menu);
      byId("costs-faults").textContent = "fault" in read ? `${read.fault}.` : "";
      if ("fault" in read) return;
      const { day } = account;
      void change("/closeout/costs", { day, costs: read.costs }, "The costs are kept.").then((good) => {
        if (good) typing = false;
      });
    })();
  });
  byId("crowd").addEventListener("submit", (event) => {
    event.preventDefault();
    onDay(({ day }) => {
      const text = byId<HTMLInputElement>("passers-by").value.replaceAll(/[\s.,]/g, "");
      const passersBy = Number(text);
      if (text !== "" && (!Number.isInteger(passersBy) || passersBy < 1))
        return notice(`“${text}” is no number of people.`);
      const uncertainty = Number(byId<HTMLSelectElement>("sure").value);
      const crowd = text === "" ? null : { passersBy, uncertainty };
      void change("/closeout/crowd", { day, crowd }, crowd === null ? "Taken out." : "The number is kept.");
    })();
  });
  void look(null);
}

const crew = openCrew();
if (crew !== null) start(crew.api);
