/** One order on the counter: found by its number, paid, handed over, or ended another way. */

export const TENDERS = [
  ["cash", "Cash"],
  ["card", "Card"],
  ["other", "Other"],
] as const;

const ENDINGS = [
  ["dropped", "Drop it…"],
  ["refunded", "Give money back…"],
  ["exchanged", "Exchange…"],
  ["uncollected", "Never fetched…"],
] as const;

function Payment() {
  return (
    <section id="pay" class="pay" aria-labelledby="pay-sum" hidden>
      <h2 id="pay-sum">To pay</h2>
      <div class="pair">
        <div>
          <label for="given">Cash given</label>
          <input id="given" inputmode="decimal" autocomplete="off" maxlength={24} />
        </div>
        <div>
          <label for="taker">Who takes it</label>
          <input id="taker" autocomplete="off" maxlength={20} />
        </div>
      </div>
      <p id="change-due" role="status"></p>
      <div class="row">
        {TENDERS.map(([tender, label]) => (
          <button class="main" type="button" data-tender={tender}>
            Paid: {label}
          </button>
        ))}
      </div>
      <p class="small">The stall notes how it was paid and how much. Card numbers never go in here.</p>
    </section>
  );
}

function HandOver() {
  return (
    <section id="hand-over" class="hand" aria-labelledby="hand-title" hidden>
      <h2 id="hand-title">Hand over</h2>
      <p id="hand-ask"></p>
      <div class="row">
        <button id="hand-right" class="main" type="button"></button>
        <button id="hand-wrong" type="button">
          Another word
        </button>
      </div>
      <div id="hand-stop" role="alert" hidden>
        <p>Do not hand it over yet. Check the number with them, or ask to see their text or tag.</p>
        <button id="hand-without" type="button">
          It is theirs all the same: hand over
        </button>
      </div>
    </section>
  );
}

function EndDialog() {
  return (
    <dialog id="end" aria-labelledby="end-title">
      <h2 id="end-title">End the order</h2>
      <p id="end-meaning"></p>
      <div class="row">
        <button id="end-yes" class="main" type="button"></button>
        <button id="end-back" type="button">
          Back
        </button>
      </div>
    </dialog>
  );
}

/** One field for every order there is; above both views, so that it is one tap away. */
export function FindOrder() {
  return (
    <search>
      <form id="find-form" class="find">
        <label for="find">Find an order</label>
        <div class="row">
          <input
            id="find"
            type="search"
            autocomplete="off"
            maxlength={40}
            aria-describedby="find-help find-said"
            placeholder="Number, pickup word, name, garment"
          />
          <button type="submit">Find</button>
        </div>
        <p id="find-help" class="offstage">
          Its number, pickup word, name or garment, or the last four digits of their telephone number.
        </p>
        <p id="find-said" role="status"></p>
      </form>
    </search>
  );
}

export function OrderDesk() {
  return (
    <div id="desk" class="desk" hidden>
      <section class="open-list" aria-label="Open orders">
        <fieldset id="lists" class="row lists" aria-label="Which orders"></fieldset>
        <div id="open-orders" class="order-rows"></div>
        <p id="open-none" role="status"></p>
        <p id="open-more" class="small"></p>
        <div id="lifted-part" class="row" hidden>
          <p id="lifted" class="small" role="status"></p>
          <button id="lift-claims" type="button">
            No limit on web orders for an hour
          </button>
        </div>
      </section>
      <div id="order" class="order" hidden>
        <section id="order-tag" class="tag" aria-label="The order"></section>
        <section id="claim" class="hand" aria-labelledby="claim-title" hidden>
          <h2 id="claim-title">Not here yet</h2>
          <p id="claim-means"></p>
          <div class="row">
            <button id="claim-yes" class="main" type="button">
              Is here
            </button>
            <button id="claim-free" type="button">
              Free its garments
            </button>
          </div>
        </section>
        <Payment />
        <HandOver />
        <dl id="order-facts" class="fields"></dl>
        <div class="row">
          <button id="leave-out" type="button" hidden></button>
          <button id="give-back" type="button" hidden></button>
          <button id="undo" type="button" hidden></button>
        </div>
        <details id="ends" hidden>
          <summary>It ends another way</summary>
          <div class="row">
            {ENDINGS.map(([ending, label]) => (
              <button type="button" data-ending={ending}>
                {label}
              </button>
            ))}
          </div>
        </details>
      </div>
      <EndDialog />
    </div>
  );
}
