/** @jsxImportSource preact */
/** Turns an accepted plan into a stall's menu and opening stock, if the stall's crew key is in this browser. */
import { nanoid } from "nanoid";
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { PlanTaken } from "../../../../model/planning/accepted-plan.ts";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { apiAt, detailOf } from "../../kit/api.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { local } from "../../kit/texts-kept.ts";
import { keepAccepted } from "../day/accepted.ts";
import type { Day } from "../day/first.ts";
import { Sentences } from "../figures.tsx";
import { wordAt } from "../groups/names.ts";

const KEPT = "key crew ";
const CENTIMETRES = 2.54;

type Place = { readonly stall: string; readonly key: string };

/** The stalls whose crew key this browser keeps, as "fair/stall"; the one the page was asked for first. */
function places(): readonly Place[] {
  const asked = new URLSearchParams(location.search).get("stall");
  return local
    .entries()
    .flatMap(([name, key]) => (name.startsWith(KEPT) ? [{ stall: name.slice(KEPT.length), key }] : []))
    .sort((a, b) => Number(b.stall === asked) - Number(a.stall === asked) || a.stall.localeCompare(b.stall));
}

type Props = { readonly plan: Plan; readonly day: Day };

/** The button with its stall, and what became of it. */
export function FillStall({ plan, day }: Props) {
  const [all] = useState(places);
  const [chosen, setChosen] = useState(0);
  // One key for one intent: sent again after a lost answer, it cannot happen twice.
  const [once, setOnce] = useState(nanoid);
  const [sending, setSending] = useState(false);
  const [told, setTold] = useState<ComponentChildren>(null);
  // What was said of an earlier plan does not hold for this one.
  useEffect(() => {
    setOnce(nanoid());
    setTold(null);
  }, [plan, day]);
  const send = async (): Promise<void> => {
    const place = all[chosen];
    if (place === undefined) return;
    setSending(true);
    setTold("Sending…");
    const { reply, words } = await fill(place, plan, day, once);
    setSending(false);
    if (reply.status !== 0 && reply.status < 500) setOnce(nanoid());
    setTold(words);
  };
  return (
    <div class="no-print">
      <h3>Use this plan at your stall</h3>
      {all.length === 0 ? (
        <p>
          Open your stall once in this browser with the link that you were given: then a button here sets its
          menu and opening stock from this plan, and keeps the plan with it.
        </p>
      ) : (
        <>
          <p>
            Sets the stall’s blanks, designs, offers and prices, counts in what is brought, and keeps the plan
            to compare the day with. It can be done until the first order.
          </p>
          <label for="fill-stall">Stall</label>
          <div class="row">
            <select
              id="fill-stall"
              onChange={({ currentTarget }) => {
                setChosen(currentTarget.selectedIndex);
                setOnce(nanoid());
              }}
            >
              {all.map(({ stall }) => (
                <option key={stall}>{stall}</option>
              ))}
            </select>
            <button type="button" disabled={sending} onClick={send}>
              Use this plan at the stall
            </button>
          </div>
          <div role="status">{told}</div>
        </>
      )}
    </div>
  );
}

/** Sends the plan to the stall; the reply, and what to say of it. */
async function fill(place: Place, plan: Plan, day: Day, once: string) {
  const [fair = "", stall = ""] = place.stall.split("/");
  const api = apiAt(`/v1/fairs/${fair}/stalls/${stall}`, () => place.key);
  const reply = await api("/plan", { method: "POST", body: accepted(plan, day), once });
  if (reply.status !== 200) {
    const words = (
      <>
        <p class="fault">{detailOf(reply)}</p>
        <Sentences each={faultsIn(reply.body)} />
      </>
    );
    return { reply, words };
  }
  const { stock, check } = reply.body as PlanTaken; // as the route documents
  keepAccepted(place.stall, day);
  const pieces = stock.skus.reduce((sum, { onHand }) => sum + onHand, 0);
  const words = (
    <>
      <p class="verdict">
        {`Done: ${stall} opens with ${pieces} blanks and the menu of this plan. The plan is kept with the stall: its close-out begins from these costs.`}
      </p>
      {check.length === 0 ? null : (
        <>
          <p>Look at these first:</p>
          <Sentences each={check.map(({ detail }) => detail)} />
        </>
      )}
      <a href={`/crew/${fair}/${stall}/setup`}>To the stall's own page</a>
    </>
  );
  return { reply, words };
}

const faultsIn = (body: unknown): string[] =>
  rowsAt(body as Json, "#/errors").map(
    (fault) => `${wordAt(fault, "#/pointer")}: ${wordAt(fault, "#/detail")}`,
  ); // a problem's JSON

/** The most kinds of garment whose expected sales are sent, best sellers first: a request has a limit. */
const MOST_SOLD = 400;

/** What the route takes: of the request and the answer what is kept, and the size of the art. */
function accepted({ bring, name, day: date, best, manners, money, demand, sold }: Plan, day: Day): Json {
  const { plan, sheets } = day;
  const kept = ["currency", "blanks", "designs", "offers", "presses", "costs", "ahead", "spoilage"].flatMap(
    (field) => {
      const value = valueAt(plan, `#/${field}`);
      return value === undefined ? [] : [[field, value] as const];
    },
  );
  const planned = new Set(bring.transfers.map(({ design }) => design));
  const scale = wordAt(sheets, "#/unit", "in") === "cm" ? CENTIMETRES : 1;
  const art = rowsAt(sheets, "#/designs").flatMap((row): Json[] => {
    const [width, height] = [valueAt(row, "#/width"), valueAt(row, "#/height")];
    const design = wordAt(row, "#/id");
    if (typeof width !== "number" || typeof height !== "number" || !planned.has(design)) return [];
    return [{ design, widthInches: width / scale, heightInches: height / scale }];
  });
  const line = ({
    bring: pieces,
    owned,
    comesHome,
  }: Pick<Plan["bring"]["skus"][number], "bring" | "owned" | "comesHome">) => ({
    bring: pieces,
    owned,
    comesHome,
  });
  return {
    request: Object.fromEntries(kept),
    bring: {
      skus: bring.skus.map((one) => ({ sku: one.sku, ...line(one) })),
      transfers: bring.transfers.map((one) => ({ design: one.design, ...line(one) })),
      ready: bring.ready.map(({ offer, colour, size, cost, ...one }) => ({
        ...{ offer, colour, size, cost },
        ...line(one),
      })),
    },
    art,
    plan: {
      name,
      day: date,
      best,
      manners: manners.map(({ manner, garmentsSold, waitMinutes }) => ({
        manner,
        garmentsSold,
        waitMinutes,
      })),
      money: { expectedProfit: money.expectedProfit, profit: money.profit },
      demand: {
        hours: demand.hours.map(({ day: which, from, minutes, soldBy, soldThatDay }) => ({
          ...{ from, minutes, soldBy },
          ...(which === undefined || soldThatDay === undefined ? {} : { day: which, soldThatDay }),
        })),
      },
      sold: [...sold].sort((one, other) => other.garments - one.garments).slice(0, MOST_SOLD),
    },
  };
}
