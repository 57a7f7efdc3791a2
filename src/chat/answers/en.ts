/** English: questions and their answers. */
import { joined, rows } from "../wording/compose.ts";
import type { AnswerSentences, AnswerWording, QuestionWords } from "./shape.ts";

const DAYS =
  "today/tonight/tonite/tomorrow/tmrw/tmr/later/monday/tuesday/wednesday/thursday/friday/saturday/sunday";
const YOU = "you/u/guys/stall/booth/tent/stand/table/shop";
const KID = "kid/kids/child/children/childrens/youth/toddler/toddlers/baby/babies/infant/junior/juniors";
const GARMENT =
  "shirt/shirts/tee/tees/tshirt/hoodie/jacket/bag/cap/hat/garment/garments/clothes/stuff/things";

const words: QuestionWords = {
  subjects: {
    exchange: {
      words: "exchange/exchanges/refund/refunds/return/returns",
      patterns: [
        "swap/change if/too/later",
        "money back",
        "if/what/when small/big/tight/large/fit/fits/wrong",
        "doesnt/dont/not fit",
        "bring back",
      ],
      not: "menu/list/start/order/orders",
    },
    "own-garment": {
      patterns: [
        `my/own/our/bring/brought ${GARMENT}`,
        `print/press/put my/own/our/bring/brought ${GARMENT}`,
        `print/press i/we have/bring/brought/own`,
        `print/press ${GARMENT} i/we`,
        `${GARMENT} i/we have/brought/own already`,
        `can/could/do bring/brought my/own/our`,
      ],
      not: "order/orders/where/wheres/hows/ready/coming/done",
    },
    shipping: {
      words:
        "ship/ships/shipping/shipped/mail/mailed/deliver/delivers/delivered/delivery/online/website/internet",
      patterns: ["send to/my house/home/address", "buy/get/order after/later fair/show/event/on"],
    },
    fabric: {
      words:
        "cotton/polyester/material/materials/fabric/wash/washed/washing/washable/shrink/shrinks/fade/fades/dryer/tumble/organic/linen/soft/thick/thin/stretchy/breathable",
      patterns: ["made of/from/out"],
    },
    children: {
      patterns: [
        `${KID} size/sizes/shirt/shirts/clothes`,
        `anything/something/size/sizes/smallest for ${KID}`,
        `have/has/got/any/there/sell/make/come/carry/do ${KID}`,
        "year/yr/years/yrs/month/months old/olds",
        "daughter/son/kid/kids/boy/girl/baby come/fit/small/size/sizes/wear",
      ],
    },
    payment: {
      words: "contactless/venmo",
      alone: "plastic/card/cards/cash/credit/debit/payment/payments/pay/check/checks/cheque",
      patterns: [
        "take/takes/accept/accepts/use card/cards/cash/credit/debit/check/checks/cheque/money",
        "pay/paying with/by/w/using/in card/cards/cash/phone/credit/debit/mobile/cell",
        "tap phone/card",
        "how pay/paying",
        "cash/card or card/cash",
        "cash/card/cards only",
        "only cash/card/cards",
      ],
    },
    hours: {
      alone: "hours/schedule/closing/opening/closed/open",
      patterns: [
        "what/when/wat time/you/u/guys/it/does/do close/closing/open/opening/start/end/finish/shut/leave",
        "when close/open/closing/end",
        "until/till/til what/when/wat",
        "what/when until/till/til",
        `${YOU} open/closed/closing/pack/packing`,
        "still/you/u open/here/there",
        `here/open ${DAYS}`,
        "how late",
        "your hours",
      ],
      not: "ready/order/orders/my/mine",
    },
    place: {
      alone: "location/address/directions/place",
      patterns: [
        `where/wheres/wer/were ${YOU}`,
        `find ${YOU}`,
        "whereabouts you/u/it",
        "which tent/stall/booth/stand/table",
        "where go/come",
        "you/u near/beside/behind/by/next",
        "which/what row/aisle/lane/spot/booth/corner/side/number",
        "where/wheres pick/pickup/collect/get/fetch/come",
        "your location/place/address",
        "how get there/to",
      ],
      not: "toilet/toilets/restroom/restrooms/bathroom/bathrooms/parking/food/atm",
    },
    price: {
      words: "price/prices/cost/costs/pricing",
      alone: "much",
      patterns: ["how/hw much", "is/are/costs more for"],
      not: "longer/time",
    },
    wait: {
      words: "eta",
      alone: "wait/queue/line/busy",
      patterns: [
        "how long",
        "how/hows/whats wait/line/queue",
        "long/big line/wait/queue",
        "there a/any line/wait/queue",
        "wait time",
        "you/u/how backed/busy",
        "line/wait/queue long/now/right",
      ],
      not: "sleeve/sleeves",
    },
  },
  fillers: `a an the is it its are r there do does you u guys your ur for of to me my i we us take takes accept only just or and any
    got have has hi hello hey please pls plz ok so what whats wat how hw in on with now right rn at still be can could many size sizes ${KID.replaceAll("/", " ")} stuff`,
  cues: "how/hw/what/whats/wat/where/wheres/wer/when/which/who/do/does/is/are/r/any/will/why/if",
};

const min = (minutes: number): string => `about ${minutes} min`;

const sentences: AnswerSentences = {
  payment:
    ({ paying, byLink }) =>
    (brevity) =>
      joined([
        paying === "first"
          ? "You pay at the stall, and then we press it."
          : paying === "at-pickup"
            ? "You pay at the stall when you fetch it."
            : "You pay at the stall.",
        byLink && brevity < 4 && "Or by the link in your order’s text.",
        brevity < 2 && "Ask there about cards.",
      ]),
  place:
    ({ stall, fair }) =>
    () =>
      `Look for ${stall} at ${fair}.`,
  hours:
    ({ closes, opens }) =>
    (brevity) =>
      joined([
        closes === null ? "We’re closed now." : `We’re open until ${closes}.`,
        opens !== null && (closes === null || brevity < 3) && `We open again ${opens}.`,
      ]),
  children:
    ({ sizes, smallest }) =>
    (brevity) =>
      sizes.length === 0
        ? `No children’s sizes; the smallest is ${smallest}.`
        : `Yes, children’s sizes: ${rows(sizes, brevity, (n) => `and ${n} more`).join(", ")}.`,
  ownGarment:
    ({ name, more }) =>
    () =>
      joined([`Yes, bring it to the counter (${name}${more === null ? "" : `, ${more} more`}).`]),
  fabric:
    ({ blanks }) =>
    (brevity) =>
      joined([
        `${rows(
          blanks.map(({ name, fabric }) => `${name}: ${fabric}`),
          brevity,
          (n) => `and ${n} more`,
        ).join(", ")}.`,
        brevity < 4 && "Wash it inside out and cool; no iron on the print.",
      ]),
  exchange: () => () => "Bring it to the stall with your number, and we’ll see what can be done.",
  shipping: () => () => "What you order here is picked up at the stall. If you want it sent, ask us there.",
  askStall: () => () => "Please ask at the stall.",
  price:
    ({ prices, plusTax }) =>
    (brevity) =>
      `${rows(
        prices.map(({ name, price }) => `${name} ${price}`),
        brevity,
        (n) => `and ${n} more`,
      ).join(", ")}${plusTax && brevity < 4 ? ", plus tax" : ""}.`,
  wait:
    ({ minutes, paused }) =>
    () =>
      paused
        ? `We’ve paused; once we start again it is ${min(minutes)}.`
        : `Ordered now, it takes ${min(minutes)}.`,
  goOn: "And which number of the list?",
  fabrics: { cotton: "cotton", polyester: "polyester", blend: "a blend", other: "ask us" },
};

export const EN_ANSWERS: AnswerWording = { words, sentences };
