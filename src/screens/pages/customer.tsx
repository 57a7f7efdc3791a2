/** Where a customer orders: the same conversation as by text message, with buttons. */
import { Freshness, Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

/** The words are put in by the page's script, in the browser's language (`data-say` names each). */
export function CustomerPage({ fair, stall }: Place) {
  return (
    <Page title="Order" screen="customer" data={{ fair, stall }}>
      <header>
        <div class="top">
          <h1 id="stall-name">{stall}</h1>
          <Freshness />
        </div>
        <section id="ticket" class="ticket" hidden aria-labelledby="ticket-number"></section>
        <p id="ticket-news" class="offstage" role="status"></p>
      </header>
      <main id="main" tabindex={-1}>
        <h2 class="offstage" data-say="talk">
          Conversation
        </h2>
        <div role="log" aria-labelledby="stall-name">
          <ol id="talk"></ol>
        </div>
        <fieldset id="choices" tabindex={-1} data-say-label="choose" aria-label="Tap one, or type"></fieldset>
        <p id="trouble" class="notice" role="alert" hidden></p>
      </main>
      <footer>
        <div id="unsent" class="unsent" role="status" hidden>
          <p id="unsent-words"></p>
          <button id="again" type="button" data-say="sendAgain">
            Send now
          </button>
        </div>
        <form id="say">
          <label class="offstage" for="text" data-say="type">
            Type a number or what you want
          </label>
          <input
            id="text"
            name="text"
            maxlength={600}
            autocomplete="off"
            autocapitalize="off"
            enterkeyhint="send"
            data-say-placeholder="type"
          />
          <button type="submit" data-say="send">
            Send
          </button>
        </form>
        <fieldset id="shortcuts" data-say-label="shortcuts" aria-label="Shortcuts"></fieldset>
      </footer>
    </Page>
  );
}
