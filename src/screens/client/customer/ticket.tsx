/** @jsxImportSource preact */
/** The order's state, pinned at the top like the tag on its garment. */
import { billOf } from "../../../chat/wording/price.ts";
import { spellingOf } from "../../../model/basics/region.ts";
import type { OrderStage, OrderStanding } from "../../../model/orders/order.ts";
import { smsLink } from "../../../texting/sms-link.ts";
import { Tap } from "../parts/tap.tsx";
import type { PageWords } from "./words.ts";

const OVER: ReadonlySet<OrderStage> = new Set([
  "collected",
  "dropped",
  "uncollected",
  "refunded",
  "exchanged",
]);
/** Until a press has it, its customer may cancel an order. */
const CANCELLABLE: ReadonlySet<OrderStage> = new Set(["to-pay", "to-claim", "waiting"]);

type Ordered = { readonly order: OrderStanding; readonly words: PageWords };

const stageOf = ({ order: { stage, total }, words }: Ordered): string =>
  words.stages(spellingOf(total.currency))[stage];

/** A change of stage, announced once for screen readers. */
export const ticketNews = ({ order, words }: Ordered): string => {
  const said = `${words.number} ${order.number}: ${stageOf({ order, words })}`;
  return order.stage === "ready" ? `${said} ${words.sayWord} ${order.word}` : said;
};

function Face({ order, words }: Ordered) {
  const { number, word, place, quoteMinutes, stage, toBeTold, total, tax, taxInPrice, paused } = order;
  const isOver = OVER.has(stage);
  return (
    <>
      <div class="tag-head">
        <h2 id="ticket-number">
          <span class="small">{words.number}</span> <span class="number-big">{number}</span>
        </h2>
        <div class={stage === "ready" ? "large" : "strong"}>
          <p>{stage === "waiting" && place > 0 ? words.place(place) : stageOf({ order, words })}</p>
          {stage === "waiting" || stage === "pressing" ? <p>{words.wait(quoteMinutes, paused)}</p> : null}
        </div>
      </div>
      {paused && !isOver ? <p class="paused strong">{words.paused}</p> : null}
      {isOver ? null : (
        <p class="row word tear">
          {stage === "ready" ? words.sayWord : words.word} <strong class="large">{word}</strong>
        </p>
      )}
      {isOver ? null : (
        <p class="bill">{words.bill(billOf(total, { total: total.amount, tax: tax.amount, taxInPrice }))}</p>
      )}
      {isOver || toBeTold === undefined ? null : (
        <p class="by-text strong">
          {`${words.byText} `}
          <a href={smsLink(toBeTold.to, toBeTold.text)}>{words.textTo(toBeTold.text, toBeTold.to)}</a>
        </p>
      )}
    </>
  );
}

export type TicketActions = {
  /** The board's address. */
  readonly board: string;
  /** Asks whether they are sure to cancel, or no longer. */
  readonly askToCancel: (isAsking: boolean) => void;
  readonly say: (text: string) => void;
};

type Props = Ordered & { readonly isCancelling: boolean; readonly actions: TicketActions };

function Acts({ order, words, isCancelling, actions }: Props) {
  const { board, cancel } = words;
  if (isCancelling && CANCELLABLE.has(order.stage))
    return (
      <div class="row even">
        <p class="strong whole" role="status">
          {cancel.sure(order.number)}
        </p>
        <Tap id="keep-order" class="quiet" onTap={() => actions.askToCancel(false)}>
          {cancel.no}
        </Tap>
        <Tap class="quiet danger" onTap={() => actions.say(`${cancel.say} ${order.number}`)}>
          {cancel.yes}
        </Tap>
      </div>
    );
  return (
    <div class="row even">
      <a key="board" class="button quiet" href={actions.board}>
        {board}
      </a>
      {CANCELLABLE.has(order.stage) ? (
        <Tap key="cancel" id="cancel-order" class="quiet" onTap={() => actions.askToCancel(true)}>
          {cancel.button}
        </Tap>
      ) : null}
    </div>
  );
}

export function Ticket(props: Props) {
  const { stage } = props.order;
  const isOver = OVER.has(stage);
  return (
    <section id="ticket" class={`tag ticket hole ${isOver ? "over" : stage}`} aria-labelledby="ticket-number">
      <Face {...props} />
      {isOver ? null : <Acts {...props} />}
    </section>
  );
}
