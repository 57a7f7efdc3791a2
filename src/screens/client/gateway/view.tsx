/** @jsxImportSource preact */
/** A gateway's mapping, made from its own examples. */
import { Tap } from "../parts/tap.tsx";
import { type Settings, settingsFor } from "./commands.ts";
import {
  type Draft,
  mappingOf,
  NO_RECEIPTS,
  type Part,
  RECEIPT_ROLES,
  readBack,
  TEXT_ROLES,
  withReceiptExample,
  withSendExample,
  withTextExample,
} from "./draft.ts";
import { TappedFields, Typed } from "./fields.tsx";
import { Request } from "./request.tsx";
import { Signing } from "./signing.tsx";
import { countWords, type State } from "./state.ts";

export type Ways = {
  readonly edit: (draft: Draft) => void;
  readonly save: () => void;
  readonly typeTryTo: (number: string) => void;
  readonly attempt: () => void;
};

type Props = {
  readonly state: State;
  readonly ways: Ways;
  /** The fair's address below /v1, as the gateway calls it. */
  readonly hook: string;
};

function Wrong({ state, part }: { readonly state: State; readonly part: Part }) {
  const found = state.mistakes.filter((mistake) => mistake.part === part);
  return (
    <>
      {found.map(({ detail }) => (
        <p key={detail} class="fault">
          {detail}
        </p>
      ))}
    </>
  );
}

function Incoming({ state, ways, hook }: Props) {
  const { draft } = state;
  const { sample, picks } = draft.inbound;
  const read = readBack(draft);
  return (
    <section aria-labelledby="in-title">
      <h2 id="in-title">1. A text that comes in</h2>
      <p>At the gateway, let texts to your number be sent to this address:</p>
      <p class="address">
        <code>{`${hook}/texts`}</code>
      </p>
      <Typed
        id="sample"
        label="Paste its example of a text that comes in"
        help="The body, JSON or a form. In the documentation it is called a web hook or callback."
        lines={6}
        value={sample}
        set={(typed) => ways.edit(withTextExample(draft, typed))}
      />
      <TappedFields
        id="text-fields"
        example={sample}
        roles={TEXT_ROLES}
        roleOf={(place) => TEXT_ROLES.find(([role]) => picks[role] === place)?.[0]}
        tapped={(place, role) => {
          const others = Object.fromEntries(
            Object.entries(picks).filter(([one, at]) => one !== role && at !== place),
          );
          const next = picks[role] === place ? others : { ...others, [role]: place };
          ways.edit({ ...draft, inbound: { sample, picks: next } });
        }}
      />
      <p role="status" id="read-back">
        {read === null ? "" : `Read from the example: ${read.from.trim()} wrote “${read.text}”.`}
      </p>
      <Wrong state={state} part="inbound" />
      <details>
        <summary>If the reply must be in the answer</summary>
        <Typed
          id="answer"
          label="The answer to each text"
          help="Most gateways need nothing here. {replies} is where the replies go."
          lines={2}
          value={draft.answer.body}
          set={(body) => ways.edit({ ...draft, answer: { ...draft.answer, body } })}
        />
        <Typed
          id="reply"
          label="One reply in it, with {text}"
          help="Empty: replies are sent as texts of their own."
          value={draft.answer.reply ?? ""}
          set={(typed) => {
            const { reply: _, ...rest } = draft.answer;
            ways.edit({ ...draft, answer: typed === "" ? rest : { ...rest, reply: typed } });
          }}
        />
        <Typed
          id="content-type"
          label="Its media type"
          help="application/json, application/xml, text/xml or text/plain."
          value={draft.answer.contentType}
          set={(contentType) =>
            ways.edit({
              ...draft,
              answer: { ...draft.answer, contentType: contentType as Draft["answer"]["contentType"] }, // checked where it is saved
            })
          }
        />
      </details>
    </section>
  );
}

function Numbers({ state, ways }: Props) {
  const { draft } = state;
  return (
    <section aria-labelledby="about-title">
      <h2 id="about-title">4. Your number</h2>
      <Typed
        id="numbers"
        label="Your numbers, one a line"
        help="Such as +12125550199. A stall’s short name after a number makes it that stall’s own; one without is shared."
        lines={2}
        value={draft.numbers}
        set={(numbers) => ways.edit({ ...draft, numbers })}
      />
      <div class="pair">
        <Typed
          id="country"
          label="Country, two letters"
          help="For numbers that come without a country code."
          value={draft.country}
          set={(country) => ways.edit({ ...draft, country })}
        />
        <Typed
          id="prefixes"
          label="Texts go only to numbers that begin with"
          help="Such as +1; a lone + allows every country."
          value={draft.prefixes}
          set={(prefixes) => ways.edit({ ...draft, prefixes })}
        />
      </div>
      <div class="pair">
        <Typed
          id="name"
          label="Your name for this gateway"
          value={draft.name}
          set={(name) => ways.edit({ ...draft, name })}
        />
        <Typed
          id="most"
          label="Text segments a day, at most"
          help="The fair’s own brake on its bill."
          value={draft.segmentsPerDay}
          set={(segmentsPerDay) => ways.edit({ ...draft, segmentsPerDay })}
        />
      </div>
      <Wrong state={state} part="about" />
    </section>
  );
}

function Receipts({ state, ways, hook }: Props) {
  const { draft } = state;
  const receipts = draft.receipts ?? NO_RECEIPTS;
  return (
    <details open={state.mistakes.some(({ part }) => part === "receipts")}>
      <summary>Receipts, if the gateway sends them</summary>
      <p>They say which texts arrived. Their address:</p>
      <p class="address">
        <code>{`${hook}/receipts`}</code>
      </p>
      <Typed
        id="receipt"
        label="Paste its example of a receipt"
        help="Empty: no receipts."
        lines={4}
        value={receipts.sample}
        set={(typed) => ways.edit(withReceiptExample(draft, typed))}
      />
      <TappedFields
        id="receipt-fields"
        example={receipts.sample}
        roles={RECEIPT_ROLES}
        roleOf={(place) => RECEIPT_ROLES.find(([role]) => receipts.picks[role] === place)?.[0]}
        tapped={(place, role) =>
          ways.edit({ ...draft, receipts: { ...receipts, picks: { ...receipts.picks, [role]: place } } })
        }
      />
      <div class="pair">
        <Typed
          id="delivered"
          label="Words for delivered"
          value={receipts.delivered}
          set={(delivered) => ways.edit({ ...draft, receipts: { ...receipts, delivered } })}
        />
        <Typed
          id="failed"
          label="Words for failed"
          value={receipts.failed}
          set={(failed) => ways.edit({ ...draft, receipts: { ...receipts, failed } })}
        />
      </div>
      <Wrong state={state} part="receipts" />
    </details>
  );
}

const commandsText = ({ commands }: Settings): string =>
  commands
    .map(({ command, answer }) => (answer === null ? command : `${command}   # type: ${answer}`))
    .join("\n");

function Secrets({ state }: Pick<Props, "state">) {
  const mapping = mappingOf(state.draft);
  return (
    <section aria-labelledby="secrets-title">
      <h2 id="secrets-title">5. Secrets: set by the owner</h2>
      {mapping.ok ? (
        <>
          <p>
            Secrets are never typed into a page. The owner of this deployment runs, and types each secret when
            asked:
          </p>
          <pre id="commands">{commandsText(settingsFor(mapping.value))}</pre>
          <details>
            <summary>On a laptop at the stall</summary>
            <p>In the terminal, before npm start:</p>
            <pre>{settingsFor(mapping.value).exports.join("\n")}</pre>
          </details>
        </>
      ) : (
        <p>Once the examples above are complete, the commands stand here.</p>
      )}
    </section>
  );
}

function TryIt({ state, ways }: Props) {
  const { saved, busy, tryTo, tried } = state;
  return (
    <section aria-labelledby="try-title">
      <h2 id="try-title">7. Try it</h2>
      {saved ? (
        <form
          class="stack tight"
          onSubmit={(event) => {
            event.preventDefault();
            ways.attempt();
          }}
        >
          <Typed
            id="try-to"
            label="Your own telephone number"
            help="With its country code, such as +12125550100. At most five tries a day."
            value={tryTo}
            set={ways.typeTryTo}
          />
          <p>
            <button type="submit" disabled={busy}>
              Send me a text
            </button>
          </p>
          <p id="tried" role="status">
            {tried ?? ""}
          </p>
          <p>Then text MENU from your phone to your number.</p>
          <p id="counts" role="status">
            {countWords(state)}
          </p>
        </form>
      ) : (
        <p>Save first.</p>
      )}
    </section>
  );
}

export function Gateway(props: Props) {
  const { state, ways } = props;
  const { draft } = state;
  return (
    <div class="stack">
      <p>
        A text gateway rents you a number and passes texts on. Open its documentation: this page is filled
        from three of its examples.
      </p>
      <Incoming {...props} />
      <section aria-labelledby="sign-title">
        <h2 id="sign-title">2. How it signs</h2>
        <Signing rule={draft.verification} set={(verification) => ways.edit({ ...draft, verification })} />
        <Wrong state={state} part="verification" />
      </section>
      <section aria-labelledby="out-title">
        <h2 id="out-title">3. A text that goes out</h2>
        <Request
          sending={draft.sending}
          set={(more) => ways.edit({ ...draft, sending: { ...draft.sending, ...more } })}
          setExample={(example) => ways.edit(withSendExample(draft, example))}
        />
        <Wrong state={state} part="outbound" />
      </section>
      <Numbers {...props} />
      <Receipts {...props} />
      <Secrets state={state} />
      <section aria-labelledby="save-title">
        <h2 id="save-title">6. Save</h2>
        <p class="row">
          <Tap id="save" class="main" onTap={ways.save} busy={state.busy}>
            Save the gateway
          </Tap>
          <span id="said" role="status">
            {state.said ?? ""}
          </span>
        </p>
        {state.mistakes.length === 0 ? null : (
          <ul class="bullets">
            {state.mistakes.map(({ part, detail }) => (
              <li key={part + detail}>{detail}</li>
            ))}
          </ul>
        )}
      </section>
      <TryIt {...props} />
    </div>
  );
}
