/** Sending the texts that are due. */

import { segments } from "../../chat/fitting/segments.ts";
import type { SegmentGrant } from "../../fair/reports.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { PhoneNumber } from "../../model/orders/order.ts";
import { numberOf } from "../../texting/mapping/own-number.ts";
import { type Deployment, type Sent, sendText, unsent } from "../../texting/sending/gateway.ts";
import { nextAttempt } from "../../texting/sending/outbox.ts";
import { LONGEST_REST } from "../../texting/sending/retry-after.ts";
import type { Sending } from "../../texting/sending/sending.ts";
import type { Instant } from "../../time/instants.ts";
import { stageOf } from "../state/orders.ts";
import type { OutRow } from "../storage/people.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import { countTexts } from "./conversation.ts";
import { conversationOf, remember } from "./kept-turns.ts";
import { markToCallOut } from "./notices.ts";
import { noteStopped } from "./text-queue.ts";

/** Texts sent in one ringing of the alarm, and how many at once: within the platform's limits. */
const SENDS_PER_ALARM = 40;
const SENDS_AT_ONCE = 5;

/** Whether a text is out of date: "ready" is worthless once the order is handed over or spoiled. */
function overtaken(unit: UnitOfWork, row: OutRow): boolean {
  if (row.whileReady === null) return false;
  const order = unit.state.order(row.whileReady);
  return order === undefined || stageOf(order) !== "ready";
}

/**
 * Until when no text is sent, or null. A stored rest that would last longer than any may is over: it dates from before
 * rests had a limit, or from before the clock was set back.
 */
export function restsUntil({ people }: UnitOfWork, now: Instant): Instant | null {
  const until = people.rests.get("");
  return until === undefined || until <= now || until > now + LONGEST_REST ? null : until;
}

/** When the next text may go, or is too old to send; null if none waits. */
export function nextTextDue(unit: UnitOfWork, now: Instant): Instant | null {
  const { outbox } = unit.people;
  const [nextDue, tooOld] = [outbox.nextDue(now), outbox.nextTooOld()];
  if (nextDue === null) return tooOld;
  const due = Math.max(nextDue, restsUntil(unit, now) ?? 0);
  return tooOld === null ? due : Math.min(due, tooOld);
}

/** The texts due now; empty while the gateway has asked for a pause. */
export function dueTexts(unit: UnitOfWork, now: Instant): readonly OutRow[] {
  return restsUntil(unit, now) === null ? unit.people.outbox.due(now, SENDS_PER_ALARM) : [];
}

/**
 * Gives up the texts that have waited too long, also during a pause of the gateway. Texts read on the web are
 * delivered.
 */
export function giveUpOld(unit: UnitOfWork, now: Instant): void {
  const { menu } = unit.state;
  for (const row of unit.people.outbox.tooOld(now))
    if (row.to === null && menu !== null) deliverOnWeb(unit, menu, row);
    else giveUp(unit, row, now);
}

/** Puts a text into the conversation on the web. */
function deliverOnWeb(unit: UnitOfWork, menu: Menu, row: OutRow): void {
  const said = { id: row.id, text: null, replies: [row.text], order: null };
  remember(unit, row.customer, conversationOf(unit, menu, row.customer), said);
  unit.people.out.delete(row.id);
}

/** The segments that the due texts need beyond the day's budget. */
export function segmentsLacking(unit: UnitOfWork, now: Instant, day: string): SegmentGrant {
  const need = { others: 0, own: 0 };
  for (const row of dueTexts(unit, now))
    if (row.to !== null && !row.charged && !overtaken(unit, row))
      need[row.own === true ? "own" : "others"] += segments(row.text).parts;
  const left = budgetLeft(unit, day);
  return {
    others: Math.max(0, need.others - left.others),
    own: Math.max(0, need.own - left.own),
  };
}

/** The rest of the day's budget. */
function budgetLeft({ people }: UnitOfWork, day: string): SegmentGrant {
  const budget = people.budget.get("");
  return budget?.day === day ? { others: budget.segments, own: budget.own ?? 0 } : { others: 0, own: 0 };
}

/** Adds what the fair granted to the day's budget. */
export function addToBudget(unit: UnitOfWork, day: string, granted: SegmentGrant): void {
  const left = budgetLeft(unit, day);
  unit.people.budget.set("", {
    day,
    segments: left.others + granted.others,
    own: left.own + granted.own,
  });
}

/** The numbers that the due texts would go to, but for answers to STOP itself. */
export function duePhones(unit: UnitOfWork, now: Instant): readonly PhoneNumber[] {
  const phones = dueTexts(unit, now).flatMap(({ to, answersStop }) =>
    to === null || answersStop === true ? [] : [to],
  );
  return [...new Set(phones)];
}

/** Drops the due texts of numbers that said STOP, to whichever stall and however long ago. */
export function dropStopped(unit: UnitOfWork, now: Instant, stopped: ReadonlySet<PhoneNumber>): void {
  const { menu } = unit.state;
  if (menu === null || stopped.size === 0) return;
  for (const row of dueTexts(unit, now)) {
    if (row.to === null || row.answersStop === true || !stopped.has(row.to)) continue;
    if (row.whileReady !== null) markToCallOut(unit, row.whileReady, now);
    // The fair may not have heard of a START yet, so its answer stays.
    noteStopped(unit, menu, row.lane, true);
    unit.people.out.delete(row.id);
  }
}

/**
 * Takes the due texts that are worth sending and pays for them from the budget. Texts read on the web are delivered at
 * once; texts that the budget cannot pay are given up. Only numbers that may be texted get texts, apart from answers to
 * STOP.
 */
export function takeDue(
  unit: UnitOfWork,
  now: Instant,
  day: string,
  mayText: ReadonlySet<PhoneNumber>,
): readonly OutRow[] {
  const { menu } = unit.state;
  const { out } = unit.people;
  if (menu === null) return [];
  const left = { ...budgetLeft(unit, day) };
  const before = { ...left };
  const taken: OutRow[] = [];
  for (const row of dueTexts(unit, now)) {
    const parts = segments(row.text).parts;
    if (overtaken(unit, row)) out.delete(row.id);
    else if (row.to === null) deliverOnWeb(unit, menu, row);
    else if (row.answersStop !== true && !mayText.has(row.to)) {
      // It fell due after the fair was asked: the next alarm asks about it.
    } else if (row.charged) taken.push(row);
    else if (row.own === true && parts <= left.own + left.others) {
      const kept = Math.min(parts, left.own);
      left.own -= kept;
      left.others -= parts - kept;
      taken.push({ ...row, charged: true });
    } else if (row.own !== true && parts <= left.others) {
      left.others -= parts;
      taken.push({ ...row, charged: true });
    } else giveUp(unit, row, now);
  }
  if (left.own !== before.own || left.others !== before.others)
    unit.people.budget.set("", { day, segments: left.others, own: left.own });
  return taken;
}

function giveUp(unit: UnitOfWork, row: OutRow, now: Instant): void {
  unit.people.out.delete(row.id);
  if (row.whileReady !== null) markToCallOut(unit, row.whileReady, now);
}

/** The fair's and the stall's names, so that two stalls' texts never bear the same id at the gateway. */
export type TextSender = { readonly fair: string; readonly stall: string };

/** Whether a taken text is still wanted: since then its number may have opted out, or its order may be collected. */
export const stillWanted = (unit: UnitOfWork, row: OutRow): boolean =>
  unit.people.out.get(row.id) !== undefined && !overtaken(unit, row);

/** Called for each text: before it is sent, and with the result. */
type Each = {
  readonly wanted: (row: OutRow) => boolean;
  readonly after: (row: OutRow, sent: Sent) => void;
};

/** Hands texts to the gateway, a few at a time, in order for each number. */
export async function send(
  { outbound, from: template }: Sending,
  { fair, stall }: TextSender,
  deployment: Deployment,
  rows: readonly OutRow[],
  { wanted, after }: Each,
): Promise<void> {
  const lanes = new Map<string, OutRow[]>();
  for (const row of rows) lanes.set(row.lane, [...(lanes.get(row.lane) ?? []), row]);
  const queue = [...lanes.values()];
  const from = numberOf(template, deployment.bindings);
  let resting = false;
  const worker = async (): Promise<void> => {
    for (let lane = queue.shift(); lane !== undefined && !resting; lane = queue.shift()) {
      for (const row of lane) {
        if (row.to === null || !wanted(row)) continue;
        const text = { id: `${fair}.${stall}.${row.id}`, from: from ?? "", to: row.to, text: row.text };
        const sent: Sent =
          from === null
            ? unsent("the gateway mapping's number does not come out as a number")
            : await sendText(outbound, text, deployment);
        after(row, sent);
        resting ||= sent.type === "later" && sent.rest > 0;
        // The next text to the same number must not arrive before this one.
        if (sent.type === "later") break;
      }
    }
  };
  await Promise.all(Array.from({ length: SENDS_AT_ONCE }, worker));
}

/** Puts down how a text fared: gone, due again later, or given up. */
export function settleText(unit: UnitOfWork, row: OutRow, sent: Sent, now: Instant, chance: number): void {
  const { out, rests } = unit.people;
  // A text whose row is gone was dropped while it was being sent.
  if (out.get(row.id) === undefined) return;
  if (sent.type === "sent") {
    out.delete(row.id);
    countTexts(unit, now, { textsOut: 1, segmentsOut: segments(row.text).parts });
    return;
  }
  if (sent.type === "later" && sent.rest > 0)
    rests.set("", Math.max(restsUntil(unit, now) ?? 0, now + sent.rest));
  const dueAt = sent.type === "later" ? nextAttempt(row, now, chance, sent.retryAfter) : null;
  if (dueAt === null) giveUp(unit, row, now);
  else out.set(row.id, { ...row, attempts: row.attempts + 1, dueAt });
}
