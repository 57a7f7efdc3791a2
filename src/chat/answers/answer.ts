/** Answering a question: in the stall's own words if it wrote some, else with what menu, rules and hours say. */
import type { AnswerSubject } from "../../model/menu/answers.ts";
import type { Brevity, Say } from "../fitting/fit.ts";
import { status } from "../steps/inform.ts";
import { ask } from "../steps/question.ts";
import type { TurnAnswer } from "../steps/turn.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import { nameIn, type Range, rangesOf } from "../talk/range.ts";
import type { Talk } from "../talk/talk.ts";
import type { Reading } from "../understand/read.ts";
import { joined } from "../wording/compose.ts";
import { price } from "../wording/price.ts";
import { isOpen, offerPrice, payingOf, timeOf } from "../wording/say-names.ts";
import { ANSWERS, type Question } from "./questions.ts";

/** The answer, and then the question that was open; nothing that was being ordered is changed by it. */
export function answerTo(
  port: OrderingPort,
  before: Talk,
  { subject, language }: Question,
  reading: Reading,
): TurnAnswer {
  const talk: Talk = { ...before, language, languageChosen: true };
  if (subject === "wait" && port.orders().some(isOpen)) return status(port, talk);
  const again = ask(port, talk);
  // That question already says the sum.
  if (subject === "price" && talk.step.at === "confirm") return again;
  const say =
    subject === "price"
      ? prices(port, talk, reading)
      : subject === "wait"
        ? wait(port, talk)
        : (own(port, talk, subject) ?? suggested(port, talk, subject));
  const { goOn } = ANSWERS[language].sentences;
  // Where room is short, the list that was sent last is asked about and not sent again.
  const question = (brevity: Brevity): string =>
    brevity < 5 ? again.say(SHORTER[brevity] ?? 5) : again.talk.list.of === "nothing" ? "" : goOn;
  return {
    talk: again.talk,
    say: (brevity) => joined([say(brevity), question(brevity)], brevity < 2 ? "\n" : " "),
  };
}

/** The question is said one step more briefly than the answer. */
const SHORTER: readonly Brevity[] = [1, 2, 3, 4, 5];

/** The stall's own answer; in another language rather than none. */
function own({ menu }: OrderingPort, { language }: Talk, subject: AnswerSubject): Say | null {
  const written = menu.answers?.[subject];
  const text = written?.[language] ?? Object.values(written ?? {})[0];
  return text === undefined ? null : () => text;
}

/** The answer to a subject on which the stall wrote nothing. */
export function suggested(port: OrderingPort, talk: Talk, subject: AnswerSubject): Say {
  const { menu } = port;
  const { sentences } = ANSWERS[talk.language];
  switch (subject) {
    case "payment":
      return sentences.payment({ paying: payingOf(menu), byLink: menu.rules.paymentLink !== undefined });
    case "place":
      return sentences.place({ stall: port.stallName, fair: port.fairName });
    case "hours": {
      const { opening } = port;
      const opens = opening.open ? (port.opensNext ?? null) : opening.opens;
      return sentences.hours({
        closes: opening.open ? timeOf(port, talk, opening.closes) : null,
        opens: opens === null ? null : timeOf(port, talk, opens),
      });
    }
    case "children": {
      const sizes = onSale(port).flatMap(({ sizes }) => sizes.filter(({ offered }) => offered));
      const names = (child: boolean) => [
        ...new Set(sizes.filter((size) => size.child === child).map((size) => nameIn(talk.language, size))),
      ];
      return sentences.children({ sizes: names(true), smallest: names(false)[0] ?? "" });
    }
    case "own-garment": {
      const wish = menu.wishes?.find(({ ownGarment, offered }) => ownGarment && offered);
      if (wish === undefined) return sentences.askStall();
      const more = wish.surcharge > 0 ? price(menu, wish.surcharge) : null;
      return sentences.ownGarment({ name: nameIn(talk.language, wish), more });
    }
    case "fabric": {
      const blanks = [...new Set(onSale(port).map(({ blank }) => blank))];
      return sentences.fabric({
        blanks: blanks.map((blank) => ({
          name: nameIn(talk.language, blank),
          fabric: sentences.fabrics[blank.fabric],
        })),
      });
    }
    case "exchange":
      return sentences.exchange();
    case "shipping":
      return sentences.shipping();
    default:
      return subject satisfies never;
  }
}

const onSale = ({ menu }: OrderingPort): readonly Range[] =>
  [...rangesOf(menu).values()].filter(({ offer, blank }) => offer.offered && blank.offered);

/** The prices of what a text names, else of what is being chosen, else of everything. */
function prices(port: OrderingPort, talk: Talk, reading: Reading): Say {
  const { menu } = port;
  const named = reading.type === "garments" ? reading.lines.flatMap(offersIn) : [];
  const ranges = onSale(port);
  const meant = ranges.filter(({ offer }) => named.includes(offer.id));
  const { rules } = menu;
  return ANSWERS[talk.language].sentences.price({
    prices: (meant.length > 0 ? meant : ranges).map((range) => ({
      name: nameIn(talk.language, range.offer),
      price: offerPrice(menu, talk.language, range),
    })),
    plusTax: rules.taxPartsPerMillion > 0 && !rules.taxInPrice,
  });
}

function offersIn({
  understood,
  ambiguous,
}: Extract<Reading, { readonly type: "garments" }>["lines"][number]): readonly string[] {
  if (ambiguous?.about === "offer") return ambiguous.offers;
  return understood.offer === null ? [] : [understood.offer];
}

/** The wait of one garment of the first offer on sale. */
function wait(port: OrderingPort, talk: Talk): Say {
  const [range] = onSale(port);
  const [colour, size] = [range?.colours[0], range?.sizes[0]];
  const minutes =
    range === undefined || colour === undefined || size === undefined
      ? 0
      : port.waitMinutes([{ offer: range.offer.id, colour: colour.id, size: size.id, quantity: 1 }]);
  return ANSWERS[talk.language].sentences.wait({ minutes, paused: !port.takesOrders });
}
