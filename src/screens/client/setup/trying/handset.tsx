/** @jsxImportSource preact */
/** The conversation drawn as the texts a customer gets, with what each one takes, and advice beside it. */

import { Tap } from "../../parts/tap.tsx";
import type { FormContext } from "../actions.ts";
import { Line } from "../form/entry.tsx";
import { faultWords, Places } from "../saving/review.tsx";
import type { Said } from "./try-out.ts";

const ROOM = { "GSM-7": 160, "UCS-2": 70 } as const;
const MOST_ADVICE = 12;

function sizeWords({ size: { parts, units, alphabet } }: Said): string {
  if (parts === 1) return `1 message, ${units} of ${ROOM[alphabet]} characters`;
  return `${parts} messages, ${units} characters: a second message costs as much again`;
}

function Slip({ said }: { readonly said: Said }) {
  const heavy = said.size.parts > 1 || said.size.alphabet === "UCS-2";
  return (
    <li class={said.from}>
      <p class="text">{said.text}</p>
      {said.from === "stall" ? <p class={heavy ? "size fault" : "size"}>{sizeWords(said)}</p> : null}
    </li>
  );
}

function costWords(said: readonly Said[]): string {
  const sent = said.filter(({ from }) => from === "stall");
  const parts = sent.reduce((sum, { size }) => sum + size.parts, 0);
  return `${sent.length} replies, ${parts} ${parts === 1 ? "message" : "messages"} to pay for.`;
}

function Conversation({ desk }: { readonly desk: FormContext }) {
  const { looked, draft } = desk.state;
  if (looked === null)
    return <p>It shows here as soon as there is something to sell: a garment, a design and a product.</p>;
  const { said, advice } = looked;
  return (
    <div id="texts-part" class="stack">
      <p class="small" hidden={desk.shown.checked.menu !== null}>
        As it was before the last change. What is still to fix keeps the rest from showing.
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by the keyboard */}
      <div id="texts-log" class="card handset" role="log" aria-labelledby="texts-title" tabIndex={0}>
        <ol id="texts">
          {said.map((one, index) => (
            <Slip key={index} said={one} />
          ))}
        </ol>
      </div>
      <p class="small">{said.length === 0 ? "" : costWords(said)}</p>
      <Line
        id="say-text"
        label="Text it yourself"
        most={600}
        desk={desk}
        sends={() => desk.actions.text(desk.state.written["say-text"] ?? "")}
      >
        <button type="submit">Send</button>
      </Line>
      <Tap onTap={() => desk.actions.text(null)}>Run a sample order</Tap>
      <h3>Suggestions</h3>
      <ul id="advice" class="advice">
        {advice.length === 0 ? <li>Every question fits one message, and the menu is short.</li> : null}
        <Places desk={desk} places={advice.map(faultWords(draft.menu))} most={MOST_ADVICE} />
      </ul>
    </div>
  );
}

export const Texts = ({ desk }: { readonly desk: FormContext }) => (
  <aside class="stack texts" aria-labelledby="texts-title">
    <h2 id="texts-title">Preview: what customers see by text</h2>
    <Conversation desk={desk} />
  </aside>
);
