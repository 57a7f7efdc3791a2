/** What a stall does by its alarm: what is overdue, texts to send, news for the fair, forgetting people. */
import { dayOf } from "../fair/day.ts";
import { bindingsOf } from "../texting/bindings.ts";
import type { Sending } from "../texting/sending.ts";
import { faultFacts, log } from "../tracing/log.ts";
import {
  addToBudget,
  dueTexts,
  segmentsLacking,
  send,
  settleText,
  stillWanted,
  takeDue,
} from "./delivery.ts";
import { erase } from "./erasing.ts";
import type { Identity, Instant } from "./facts.ts";
import { outlived } from "./once.ts";
import { reportDue, reportOf, toldOf } from "./reporting.ts";
import { StallShell } from "./shell.ts";
import { tell } from "./telling.ts";

const AFTER_FAILURE = 5000;

export abstract class DeliveringStall extends StallShell {
  /** The newest version of the gateway that was heard of. */
  #gateway = 0;

  protected heardOfGateway(version: number): void {
    this.#gateway = Math.max(this.#gateway, version);
  }

  /** What fell due. Never throws: a thrown alarm is retried a few times and then lost for good. */
  override async alarm(): Promise<void> {
    this.rang();
    try {
      await this.#doDue();
      this.schedule(Date.now());
    } catch (error) {
      log("error", "the alarm failed and will ring again", faultFacts(error));
      void this.ctx.storage.setAlarm(Date.now() + AFTER_FAILURE);
    }
  }

  /** Applies what is overdue, sends texts, tells the fair. A text that cannot be sent is due again later. */
  async #doDue(): Promise<void> {
    const now = Date.now();
    const { books } = this;
    const { identity } = books.state;
    if (identity === null) return;
    const { events } = books.carryOut({ type: "tick" }, now);
    if (books.state.menu !== null) tell(books, books.state.menu, events, now);
    this.commit(now, [...this.#sweep(now), ...erase(books, this.store, now)]);
    await this.#deliver(identity);
    await this.#report();
  }

  /** Sends the texts that are due, as far as the day's budget goes. */
  async #deliver(identity: Identity): Promise<void> {
    const due = dueTexts(this.books, Date.now());
    if (due.length === 0) return;
    if (due.some(({ to }) => to !== null)) {
      try {
        await this.#askFair(identity);
      } catch (error) {
        log("warn", "the fair could not be asked about texts", {
          stall: identity.stall,
          ...faultFacts(error),
        });
        this.books.people.rests.set("", Date.now() + AFTER_FAILURE);
        this.commit(Date.now());
        return;
      }
    }
    const now = Date.now();
    const { books } = this;
    const rows = takeDue(books, now, dayOf(now, identity.timeZone));
    this.commit(now);
    const sending = books.people.sending.get("");
    if (sending === undefined) return;
    await send(sending, identity, bindingsOf(this.env), rows, {
      wanted: (row) => stillWanted(this.books, row),
      after: (row, sent) => {
        if (sent.how === "refused")
          log("warn", "the gateway refused a text", { stall: identity.stall, status: sent.status });
        settleText(this.books, row, sent, Date.now(), Math.random());
        this.commit(Date.now());
      },
    });
  }

  /** Asks the fair for what is needed to send and is not here: its gateway, and more of the day's budget. */
  async #askFair({ fair, stall, timeZone }: Identity): Promise<void> {
    const object = this.env.FAIR.getByName(fair);
    const have: Sending | undefined = this.books.people.sending.get("");
    if (have === undefined || have.version < this.#gateway) {
      const sending = await object.sending(stall);
      this.#gateway = sending.version;
      this.books.people.sending.set("", sending);
      this.commit(Date.now());
    }
    const now = Date.now();
    const day = dayOf(now, timeZone);
    const lacking = segmentsLacking(this.books, now, day);
    if (lacking.others + lacking.own === 0) return;
    addToBudget(this.books, day, await object.grant(lacking));
    this.commit(Date.now());
  }

  /** Tells the fair what changed since it was last told; what cannot be told now is due again later. */
  async #report(): Promise<void> {
    const { identity } = this.books.state;
    const now = Date.now();
    if (identity === null || reportDue(this.books, now) === null) return;
    const told = toldOf(this.books);
    const report = reportOf(this.books, this.store, now);
    if (report === null) return;
    let reached = { ...told, at: now };
    try {
      this.heardOfGateway((await this.env.FAIR.getByName(identity.fair).report(report)).gateway);
      reached = { version: report.version, at: now, toldAt: now, shares: report.shares };
    } catch (error) {
      log("warn", "the fair could not be told", { stall: identity.stall, ...faultFacts(error) });
    }
    this.books.people.pushed.set("", reached);
    this.commit(Date.now());
  }

  #sweepFrom: string | null = null;

  /** A page of recorded answers that are past keeping; the next alarm takes the next page. */
  #sweep(now: Instant) {
    const { deletes, last } = outlived(this.store, this.#sweepFrom, now, 50);
    this.#sweepFrom = last;
    return deletes;
  }
}
