/** The work of a stall's alarm: apply what is overdue, send texts, report to the fair, erase people. */

import type { Identity, ReportsTo } from "../../fair/reports.ts";
import type { PhoneNumber } from "../../model/orders/order.ts";
import type { Deployment } from "../../texting/sending/gateway.ts";
import { dayOf } from "../../time/fair-day.ts";
import type { Instant } from "../../time/instants.ts";
import { faultFacts, log } from "../../tracing/log.ts";
import {
  addToBudget,
  dropStopped,
  duePhones,
  dueTexts,
  giveUpOld,
  segmentsLacking,
  send,
  settleText,
  stillWanted,
  takeDue,
} from "../messages/delivery.ts";
import { erase } from "../messages/erasing.ts";
import { tell } from "../messages/notices.ts";
import { lastReport, reportDue, reportOf } from "../messages/report-to-fair.ts";
import type { Write } from "../state/table.ts";
import { outlived } from "../storage/recorded-answers.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import type { Transactions } from "../transact.ts";
import { useSending } from "./from-fair.ts";

const AFTER_FAILURE = 5000;
const SWEPT_AT_ONCE = 50;

/** What the alarm calls outside the stall. */
export type AlarmNeeds = {
  readonly fairOf: (identity: Identity) => ReportsTo;
  readonly deployment: Deployment;
};

export class AlarmWork {
  readonly #transactions: Transactions;
  readonly #needs: AlarmNeeds;
  /** The newest version of the gateway that the fair has named. */
  #gateway = 0;
  #sweepFrom: string | null = null;

  constructor(transactions: Transactions, outside: AlarmNeeds) {
    this.#transactions = transactions;
    this.#needs = outside;
  }

  /** Notes the fair's gateway version. If this stall has an older one, it asks for the new one before the next text. */
  noteGateway(version: number): void {
    this.#gateway = Math.max(this.#gateway, version);
  }

  /** Does everything that is due. Never throws: the platform retries a thrown alarm only a few times. */
  async ring(): Promise<void> {
    const transactions = this.#transactions;
    transactions.rang();
    try {
      await this.#doDue();
      transactions.schedule(transactions.now());
    } catch (error) {
      log("error", "the alarm failed and will ring again", faultFacts(error));
      transactions.ring(transactions.now() + AFTER_FAILURE);
    }
  }

  /** Applies what is overdue, sends texts, reports to the fair. A text that cannot be sent is due again later. */
  async #doDue(): Promise<void> {
    const transactions = this.#transactions;
    const { identity } = transactions.unit.state;
    if (identity === null) return;
    transactions.clearLeft(transactions.now());
    transactions.transact((unit, now, also) => {
      // If the stall has moved, its new address looks after the orders.
      if (transactions.movedTo === null) {
        const { events } = unit.carryOut({ type: "tick" }, now);
        if (unit.state.menu !== null) tell(unit, unit.state.menu, events, now);
      }
      giveUpOld(unit, now);
      also([...this.#sweep(now), ...erase(unit, transactions.store, now)]);
    });
    if (!transactions.unit.forward.isDone)
      transactions.transact(({ forward }, _, also) => also(forward.part()));
    await this.#deliver(identity);
    await this.#report();
  }

  /** Sends the texts that are due, within the day's budget. */
  async #deliver(identity: Identity): Promise<void> {
    const transactions = this.#transactions;
    const due = dueTexts(transactions.unit, transactions.now());
    if (due.length === 0) return;
    let mayText: ReadonlySet<PhoneNumber> = new Set();
    if (due.some(({ to }) => to !== null)) {
      try {
        mayText = await this.#askFair(identity);
      } catch (error) {
        const facts = { stall: identity.stall, ...faultFacts(error) };
        log("warn", "the fair could not be reached before sending texts", facts);
        this.#afterwards((unit, now) => unit.people.rests.set("", now + AFTER_FAILURE));
        return;
      }
    }
    const rows = transactions.transact((unit, now) =>
      takeDue(unit, now, dayOf(now, identity.timeZone), mayText),
    );
    const sending = transactions.unit.people.sending.get("");
    if (sending === undefined) return;
    await send(sending, identity, this.#needs.deployment, rows, {
      wanted: (row) => stillWanted(transactions.unit, row),
      after: (row, sent) => {
        if (sent.type === "refused")
          log("warn", sent.why ?? "the gateway refused a text", {
            stall: identity.stall,
            status: sent.status,
          });
        transactions.transact((unit, now) => settleText(unit, row, sent, now, transactions.chance()));
      },
    });
  }

  /**
   * Asks the fair for what sending needs and the stall lacks: its gateway, and more of the day's budget. Returns the
   * due numbers that never said STOP to any of the fair's stalls.
   */
  async #askFair(identity: Identity): Promise<ReadonlySet<PhoneNumber>> {
    const transactions = this.#transactions;
    const fair = this.#needs.fairOf(identity);
    const have = transactions.unit.people.sending.get("");
    if (have === undefined || have.version < this.#gateway) {
      const sending = await fair.sending(identity.stall);
      this.#gateway = sending.version;
      this.#afterwards((unit, now) => useSending(unit, sending, now));
    }
    const now = transactions.now();
    const day = dayOf(now, identity.timeZone);
    const lacking = segmentsLacking(transactions.unit, now, day);
    if (lacking.others + lacking.own > 0) {
      const granted = await fair.grant(lacking);
      this.#afterwards((unit) => addToBudget(unit, day, granted));
    }
    const phones = duePhones(transactions.unit, now);
    if (phones.length === 0) return new Set();
    const stopped = new Set(await fair.stoppedAmong(phones));
    this.#afterwards((unit) => dropStopped(unit, now, stopped));
    return new Set(phones.filter((phone) => !stopped.has(phone)));
  }

  /**
   * Reports to the fair what changed since the last report. If the fair cannot be reached, the report is due again
   * later.
   */
  async #report(): Promise<void> {
    const transactions = this.#transactions;
    const { unit } = transactions;
    const { identity } = unit.state;
    const now = transactions.now();
    if (identity === null || reportDue(unit, now) === null) return;
    const report = reportOf(unit, transactions.store, now);
    if (report === null) return;
    let reached = { ...lastReport(unit), at: now };
    try {
      this.noteGateway((await this.#needs.fairOf(identity).report(report)).gateway);
      reached = { version: report.version, at: now, toldAt: now, shares: report.shares };
    } catch (error) {
      log("warn", "the fair could not be reached", { stall: identity.stall, ...faultFacts(error) });
    }
    this.#afterwards(({ people }) => people.pushed.set("", reached));
  }

  /** Records an answer from outside, unless the rehearsal that asked for it has ended: then the answer is discarded. */
  #afterwards(note: (unit: UnitOfWork, now: Instant) => void): void {
    if (this.#transactions.unit.state.identity !== null) this.#transactions.transact(note);
  }

  /** Deletes a page of recorded answers that are older than they are kept; the next alarm deletes the next page. */
  #sweep(now: Instant): readonly Write[] {
    const { deletes, last } = outlived(this.#transactions.store, this.#sweepFrom, now, SWEPT_AT_ONCE);
    this.#sweepFrom = last;
    return deletes;
  }
}
