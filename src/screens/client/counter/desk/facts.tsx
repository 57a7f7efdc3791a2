/** @jsxImportSource preact */
/** Further facts of the order on the counter: its money, its times, its customer. */
import type { Money } from "../../../../model/basics/money.ts";
import type { CrewOrderView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { Tap } from "../../parts/tap.tsx";
import { isEnding } from "../acts.ts";
import { REASONS } from "./discount.tsx";

const TOLD: Readonly<Record<CrewOrderView["told"], string>> = {
  nothing: "gets a message when it is ready",
  waiting: "the message is about to go out",
  sent: "has the ready text",
  delivered: "got the ready text",
  failed: "could not be reached: call the number out",
  "opted-out": "opted out of texts: call the number out",
  "call-out": "call the number out",
};

const words = ({ amount, currency }: Money): string => moneyWords(amount, currency);

function Field({
  label,
  wide,
  children,
}: {
  label: string;
  wide?: true;
  children: preact.ComponentChildren;
}) {
  return (
    <div class={wide ? "field wide" : "field"}>
      <dt class="small">{label}</dt>
      <dd>{children}</dd>
    </div>
  );
}

/** What the price rests on: bundles, what the crew took off, and the garment that it was exchanged for. */
function PriceFields({ order: { bundles = [], discount, exchangeOf, tips } }: { order: CrewOrderView }) {
  return (
    <>
      {bundles.map(({ bundle, name, saving }) => (
        <Field key={bundle} label={name}>{`${words(saving)} off`}</Field>
      ))}
      {discount === undefined || discount.amount.amount === 0 ? null : (
        <Field label={`Taken off: ${REASONS[discount.reason]}`}>{words(discount.amount)}</Field>
      )}
      {exchangeOf === undefined ? null : <Field label="Exchanged for">{exchangeOf}</Field>}
      {tips === undefined ? null : <Field label="Tip">{words(tips)}</Field>}
    </>
  );
}

/** "$25.74 by card", or "$15.74 by card and $10.00 by cash". */
const paidWords = ({ tender, amount, parts = [{ tender, amount }] }: NonNullable<CrewOrderView["paid"]>) =>
  parts.map((part) => `${words(part.amount)} by ${part.tender}`).join(" and ");

function MoneyFields({ order }: { order: CrewOrderView }) {
  const { total, tax, paid, paidTo, giveBack, gaveBack, due } = order;
  const to = paidTo === null ? "" : `to ${paidTo}, `;
  return (
    <>
      {giveBack === null ? null : (
        <Field label="Give back" wide>{`${words(giveBack)} for what left the order or costs less`}</Field>
      )}
      {gaveBack === null ? null : (
        <Field label="Handed back" wide>{`${words(gaveBack)} for what left the order or costs less`}</Field>
      )}
      {due === undefined ? null : (
        <Field label="Still due" wide>
          {words(due)}
        </Field>
      )}
      <PriceFields order={order} />
      <Field label="Total" wide>
        {words(total) + (tax.amount === 0 ? "" : `, ${words(tax)} of it sales tax`)}
      </Field>
      <Field label="Payment">
        {paid === null ? "not paid" : `${paidWords(paid)}, ${to}${timeOfDay(paid.at)}`}
      </Field>
    </>
  );
}

type Props = {
  readonly order: CrewOrderView;
  readonly tracked: boolean;
  /** The whole telephone number, once asked for. */
  readonly phone: string | null;
  readonly reveal: () => void;
};

/** Once an order is over, its expected times are not shown. */
export function Facts({ order, tracked, phone, reveal }: Props) {
  const { placedAt, dueBy, name, stage } = order;
  const over = isEnding(stage);
  return (
    <dl id="order-facts" class="row fields">
      {tracked ? <MoneyFields order={order} /> : null}
      <Field label="Ordered">{timeOfDay(placedAt)}</Field>
      {dueBy === null || over ? null : <Field label="Promised by">{timeOfDay(dueBy)}</Field>}
      {name === null && order.phone === null ? null : (
        <Field label="For" wide>
          {name !== null && order.phone !== null ? `${name}, ` : name}
          {order.phone === null ? null : <span>{phone ?? order.phone}</span>}
          {order.phone === null || phone !== null ? null : <Tap onTap={reveal}>Show number</Tap>}
        </Field>
      )}
      {over ? null : (
        <Field label="The customer" wide>
          {TOLD[order.told]}
          {order.told === "call-out" && stage !== "ready" ? " when it is ready" : ""}
        </Field>
      )}
    </dl>
  );
}
