/** @jsxImportSource preact */
/** The customer's page: the order, the conversation, and the possible answers. */
import { Tap } from "../parts/tap.tsx";
import { linesOf, type ShownLine, tilesOf } from "./shown.ts";
import type { State, Trouble } from "./state.ts";
import { Ticket, type TicketActions, ticketNews } from "./ticket.tsx";
import { Tiles } from "./tiles.tsx";
import type { PageWords } from "./words.ts";

export type Actions = TicketActions & {
  readonly type: (text: string) => void;
  readonly sendNow: () => void;
  /** The address of the page on what the stall keeps about its customers. */
  readonly yourData: string;
};

type Props = { readonly state: State; readonly words: PageWords; readonly actions: Actions };

/** The freshness line, which the poll itself updates: always the same element, so that drawing leaves it alone. */
function Top({ stall }: State) {
  return (
    <div class="top">
      <h1 id="stall-name">{stall}</h1>
      <p class="freshness-line no-print">
        <span id="freshness" class="freshness">
          connecting…
        </span>
        <span id="connection" class="offstage" role="status" />
      </p>
    </div>
  );
}

const Rest = ({ text }: { readonly text: string }) => (text === "" ? null : <span class="rest">{text}</span>);

function Stalls({ line: { gist, rest, list, isOpen }, words }: { line: ShownLine; words: PageWords }) {
  const kind = `line stall${list === null ? "" : " asks"}${isOpen ? " open" : ""}`;
  return (
    <li class={kind}>
      <span class="who small">{words.stall}</span>
      <p class="tear">
        <Rest text={rest[0]} />
        {gist}
        <Rest text={rest[1]} />
      </p>
      {list === null ? null : <p class="list">{list}</p>}
    </li>
  );
}

type CustomersProps = { readonly line: ShownLine; readonly words: PageWords; readonly isCutOff: boolean };

function Customers({ line: { gist, isOpening, isUnsent }, words, isCutOff }: CustomersProps) {
  return (
    <li class={`line customer${isOpening ? " opening" : ""}`}>
      <span class="who small">{words.you}</span>
      <p>{gist}</p>
      {isUnsent ? <span class="state">{isCutOff ? words.notSent : words.sending}</span> : null}
    </li>
  );
}

function troubleWords(trouble: Trouble, words: PageWords): string {
  switch (trouble.why) {
    case "no-reply":
      return words.silent;
    case "started-again":
      return words.startedAgain;
    case "unreachable":
      return words.strange;
    case "refused":
      // The stall words what went wrong in English only.
      return (
        words.problems[trouble.problem ?? ""] ?? (words.language === "en" ? trouble.detail : words.strange)
      );
    default:
      return trouble satisfies never;
  }
}

function Unsent({ state: { unsent, isCutOff }, words, actions }: Props) {
  const isShown = isCutOff && unsent.length > 0;
  return (
    <div id="unsent" class="row apart unsent needs-you" role="status" hidden={!isShown}>
      <p>{isShown ? words.unsent(unsent.length) : ""}</p>
      <Tap id="again" onTap={actions.sendNow}>
        {words.shell.sendAgain}
      </Tap>
    </div>
  );
}

function Say({ state: { typed }, words, actions }: Props) {
  return (
    <form
      id="say"
      class="pair"
      onSubmit={(event) => {
        event.preventDefault();
        const text = typed.trim();
        if (text === "") return;
        actions.type("");
        actions.say(text);
      }}
    >
      <label class="offstage" for="text">
        {words.shell.type}
      </label>
      <input
        id="text"
        name="text"
        maxLength={600}
        autocomplete="off"
        autocapitalize="off"
        enterKeyHint="send"
        placeholder={words.shell.hint}
        value={typed}
        onInput={({ currentTarget }) => actions.type(currentTarget.value)}
      />
      <button type="submit">{words.shell.send}</button>
    </form>
  );
}

/** Nothing until the garments can be drawn with it: coming later, they would push the talk away. */
function Talk({ state, words, actions }: Props) {
  const isKnown = state.looks !== null;
  return (
    <>
      <div role="log" aria-labelledby="stall-name">
        <ol id="talk">
          {(isKnown ? linesOf(state, words.menu) : []).map((line) =>
            line.from === "stall" ? (
              <Stalls key={line.id} line={line} words={words} />
            ) : (
              <Customers key={line.id} line={line} words={words} isCutOff={state.isCutOff} />
            ),
          )}
        </ol>
      </div>
      <Tiles shown={isKnown ? tilesOf(state) : null} label={words.shell.choose} say={actions.say} />
      {isKnown && state.lines.length > 0 ? (
        <p class="small">
          <a href={actions.yourData}>{words.yourData}</a>
        </p>
      ) : null}
    </>
  );
}

export function Customer(props: Props) {
  const { state, words, actions } = props;
  const { order, trouble } = state;
  return (
    <>
      <header>
        <Top {...state} />
        {order === undefined ? null : (
          <Ticket order={order} words={words} isCancelling={state.isCancelling} actions={actions} />
        )}
        <p id="ticket-news" class="offstage" role="status">
          {order === undefined ? "" : ticketNews({ order, words })}
        </p>
      </header>
      <main id="main" tabIndex={-1}>
        <h2 class="offstage">{words.shell.talk}</h2>
        <Talk {...props} />
        <p id="trouble" class="notice" role="alert" hidden={trouble === null}>
          {trouble === null ? "" : troubleWords(trouble, words)}
        </p>
      </main>
      <footer>
        <Unsent {...props} />
        <Say {...props} />
        <fieldset id="shortcuts" class="row even" aria-label={words.shell.shortcuts}>
          {words.shortcuts.map(([say, label]) => (
            <Tap key={say} class="quiet" onTap={() => actions.say(say)}>
              {label}
            </Tap>
          ))}
        </fieldset>
      </footer>
    </>
  );
}
