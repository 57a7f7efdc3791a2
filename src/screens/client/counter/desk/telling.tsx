/** @jsxImportSource preact */
/** How the customer of the order on the counter is reached by text: the line to text, and what the crew can say. */
import type { CrewSentence } from "../../../../model/orders/crew-sentences.ts";
import type { CrewOrderView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { Tap } from "../../parts/tap.tsx";
import { isEnding } from "../acts.ts";

const SENTENCES: Readonly<Record<CrewSentence, string>> = {
  "five-minutes": "5 more minutes",
  "closing-soon": "We close soon",
  "come-back": "Please come back",
};
const TO_SAY = ["five-minutes", "closing-soon", "come-back"] as const;

type Props = {
  readonly order: CrewOrderView;
  readonly busy: boolean;
  readonly say: (sentence: CrewSentence) => void;
};

/** Where nobody waits any more, no line is shown, and all there is to say is that they should come back. */
export function Telling({ order: { number, stage, toBeTold, mayText, texted }, busy, say }: Props) {
  if (toBeTold !== undefined)
    return stage === "ready" ? null : (
      <p id="to-be-told" class="write">
        {"For a text when it is ready, they text "}
        <strong>{toBeTold.text}</strong>
        {` to ${toBeTold.to}.`}
      </p>
    );
  if (mayText !== true) return null;
  const said = isEnding(stage) ? TO_SAY.filter((one) => one === "come-back") : TO_SAY;
  return (
    <section class="card" aria-labelledby={`telling-${number}`}>
      <h2 id={`telling-${number}`}>Text the customer</h2>
      <div class="row">
        {said.map((one) => (
          <Tap key={one} busy={busy} onTap={() => say(one)}>
            {SENTENCES[one]}
          </Tap>
        ))}
      </div>
      {texted === undefined ? null : (
        <p role="status">{`Sent at ${timeOfDay(texted.at)}: “${SENTENCES[texted.say]}”`}</p>
      )}
    </section>
  );
}
