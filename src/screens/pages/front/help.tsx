/** Help for a crew with a queue before it: one question, one short answer. */
import type { Spelling } from "../../../model/basics/region.ts";
import { AnswersPage } from "../../parts/answers-page.tsx";

const ANSWERS = [
  [
    "The page says it has no key",
    "On a tablet that works, open Menu, then Add a tablet, and scan the code with this one. Or ask the organiser for the crew link.",
  ],
  [
    "There is no signal",
    "Keep working. Taps are kept on this tablet and sent once the signal is back. Do not close a private window: it keeps nothing.",
  ],
  [
    "A garment is spoiled",
    "Press: tap Spoiled, say what is lost and why. The garment goes to the head of the queue.",
  ],
  [
    "It was the wrong tap",
    "Tap Undo beside the last tap, at once. Later: find the order at the counter and undo it there.",
  ],
  [
    "Rain, lunch or no power",
    "Press: tap Pause. No new orders come in. Tap Take orders again, and every promise moves by the pause.",
  ],
  [
    "A customer has no phone",
    "Counter: New order. Write the number and the word on a tag and give it to them.",
  ],
  ["The pickup word is wrong", "Do not hand over yet. Ask to see their text or tag, and check the number."],
  ["Something runs out", "Menu, Count: type what is there. What is sold out stays on the menu, marked gone."],
  [
    "The day is over",
    "Menu, Close-out: count what is left, then close the day. A closed day can be opened again.",
  ],
  [
    "A tablet is lost",
    "Ask the organiser for a new crew key (Hours, stalls, keys). The old link can stop at once.",
  ],
] as const;

const CAUTIONS =
  "A platen at working heat burns on touch, and goes on burning for a long time after it is switched off. Keep children and customers out of reach. For power, tents and fire, local rules and licensed people decide.";

export const HelpPage = ({ spelling }: { readonly spelling: Spelling }) => (
  <AnswersPage
    title="Help"
    back={{ href: "/", label: "All pages" }}
    questions={ANSWERS.map(([question, answer]) => ({ question, answers: [answer] }))}
    spelling={spelling}
  >
    <p class="notice asked">{CAUTIONS}</p>
    <p>
      For programs: <a href="/help/api">changes of the API</a>.
    </p>
  </AnswersPage>
);
