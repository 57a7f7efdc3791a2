/** @jsxImportSource preact */
/** A gateway's mapping, made from its own examples. */
import { Tap } from "../parts/tap.tsx";
import { type Settings, settingsFor } from "./commands.ts";
import { type Draft, mappingOf, readBack, TEXT_ROLES, withSendExample, withTextExample } from "./draft.ts";
import { TappedFields, Typed } from "./fields.tsx";
import { Numbers } from "./numbers.tsx";
import { type Props, Wrong } from "./part.tsx";
import { Receipts } from "./receipts.tsx";
import { Request } from "./request.tsx";
import { Signing } from "./signing.tsx";
import { countWords } from "./state.ts";

function Incoming({ state, actions, hook }: Props) {
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
        set={(typed) => actions.edit(withTextExample(draft, typed))}
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
          actions.edit({ ...draft, inbound: { sample, picks: next } });
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
          set={(body) => actions.edit({ ...draft, answer: { ...draft.answer, body } })}
        />
        <Typed
          id="reply"
          label="One reply in it, with {text}"
          help="Empty: replies are sent as texts of their own."
          value={draft.answer.reply ?? ""}
          set={(typed) => {
            const { reply: _, ...rest } = draft.answer;
            actions.edit({ ...draft, answer: typed === "" ? rest : { ...rest, reply: typed } });
          }}
        />
        <Typed
          id="content-type"
          label="Its media type"
          help="application/json, application/xml, text/xml or text/plain."
          value={draft.answer.contentType}
          set={(contentType) =>
            actions.edit({
              ...draft,
              answer: { ...draft.answer, contentType: contentType as Draft["answer"]["contentType"] }, // checked where it is saved
            })
          }
        />
      </details>
    </section>
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

function TryIt({ state, actions }: Props) {
  const { saved, busy, tryTo, tried } = state;
  return (
    <section aria-labelledby="try-title">
      <h2 id="try-title">7. Try it</h2>
      {saved ? (
        <form
          class="stack tight"
          onSubmit={(event) => {
            event.preventDefault();
            actions.attempt();
          }}
        >
          <p>Text MENU from your own phone to your number. If the menu comes back, both ways work.</p>
          <p id="counts" role="status">
            {countWords(state)}
          </p>
          <p>
            If your text came in and no menu came back, send a text out and read what the gateway answers:
          </p>
          <Typed
            id="try-to"
            label="Your own telephone number"
            help="With its country code, such as +12125550100. The phone must have texted your number within the last day. At most five a day."
            value={tryTo}
            set={actions.typeTryTo}
          />
          <p>
            <button type="submit" disabled={busy}>
              Send me a text
            </button>
          </p>
          <p id="tried" role="status">
            {tried ?? ""}
          </p>
        </form>
      ) : (
        <p>Save first.</p>
      )}
    </section>
  );
}

export function Gateway(props: Props) {
  const { state, actions } = props;
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
        <Signing rule={draft.verification} set={(verification) => actions.edit({ ...draft, verification })} />
        <Wrong state={state} part="verification" />
      </section>
      <section aria-labelledby="out-title">
        <h2 id="out-title">3. A text that goes out</h2>
        <Request
          sending={draft.sending}
          set={(more) => actions.edit({ ...draft, sending: { ...draft.sending, ...more } })}
          setExample={(example) => actions.edit(withSendExample(draft, example))}
        />
        <Wrong state={state} part="outbound" />
      </section>
      <Numbers {...props} />
      <Receipts {...props} />
      <Secrets state={state} />
      <section aria-labelledby="save-title">
        <h2 id="save-title">6. Save</h2>
        <p class="row">
          <Tap id="save" class="main" onTap={actions.save} busy={state.busy}>
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
