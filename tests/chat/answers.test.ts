import { describe, expect, it } from "vitest";
import { ANSWERS, questionIn } from "../../src/chat/answers/questions.ts";
import type { Talk } from "../../src/chat/talk/talk.ts";
import { lexiconOf } from "../../src/chat/understand/lexicon.ts";
import { FRESH, read } from "../../src/chat/understand/read.ts";
import { atHour, hour } from "../../src/chat/wording/es.ts";
import { timeOf } from "../../src/chat/wording/say-names.ts";
import { AnswerSubject, Answers } from "../../src/model/menu/answers.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { texter } from "./customer.ts";
import { exampleMenu } from "./example.ts";
import { FURTHER_QUESTIONS, QUESTIONS } from "./questions.ts";
import { READINGS } from "./readings.ts";
import { openShop, type Shop } from "./stall.ts";
import { UNSEEN } from "./unseen.ts";

/** Orders with words in them that questions have as well. */
const COMMON_ORDERS = [
  "2 otter tees youth M navy, paying cash",
  "kids otter tee sand youth S for my daughter",
  "can i get a longtail tee navy L, i have a card",
  "otter tee navy youth L for my kid, shes 8 years old",
  "longtail tee navy L and where it says L i mean large",
  "una camiseta nutria arena S juvenil para mi hija",
  "dos camisetas mito azul marino L, pago con tarjeta",
  "change 108 to XL",
  "cambia 108 a XL",
  "make it two",
  "add a tote to 108",
  "drop",
  "status",
  "when is my order ready",
  "where is my order",
  "i want to return to the menu",
  "online says you have navy L, 1 of those",
  "quiero 2 camisetas de algodon azul marino L",
  "2 caps for the kids",
  "the otter one for my son size M",
  "donde esta mi pedido",
];

const LANGUAGES = ["en", "es"] as const;
const mark = (subject: string, language: string): string => `Answer about ${subject} in ${language}.`;
const answers: Answers = Answers.parse(
  Object.fromEntries(
    AnswerSubject.options.map((subject) => [
      subject,
      Object.fromEntries(LANGUAGES.map((language) => [language, mark(subject, language)])),
    ]),
  ),
);
const menu: Menu = { ...exampleMenu(), answers };

/** Where a customer may be when they ask: before anything, at each question, and with an order. */
const BEFORE: Readonly<Record<string, readonly string[]>> = {
  nothing: [],
  menu: ["menu"],
  colour: ["menu", "1"],
  size: ["menu", "1", "1"],
  "how many": ["menu", "1", "1", "3"],
  confirming: ["1 navy L"],
  ordered: ["1 navy L", "yes"],
};

/** The parts of a conversation that a question must not change. */
const underWay = ({ step, basket, pending, list }: Talk) => ({ step, basket, pending, list });

const isRight = (subject: string, language: string, reply: string): boolean =>
  subject === "price"
    ? /\$\d/.test(reply)
    : subject === "wait"
      ? /\d min|READY/.test(reply)
      : reply.includes(mark(subject, language));

/** The fault in the answer to a question at a step; null if there is none. */
function wrongWith(
  shop: Shop,
  before: readonly string[],
  { text, subject }: { readonly text: string; readonly subject: string },
  language: (typeof LANGUAGES)[number],
  channel: "text" | "web" = "text",
): "misread" | "ordered" | null {
  const who = texter(shop, channel);
  for (const words of before) who.text(words);
  const talk = who.talk;
  const [events, orders] = [shop.events.length, shop.state.orders.size];
  const reply = who.text(text);
  const changed = JSON.stringify(underWay(who.talk)) !== JSON.stringify(underWay(talk));
  const moved = JSON.stringify(who.talk.basket) !== JSON.stringify(talk.basket) || changed;
  if (shop.state.orders.size !== orders || shop.events.slice(events).length > 0) return "ordered";
  if (moved && talk.step.at !== "idle") return "ordered";
  return isRight(subject, language, reply) ? null : "misread";
}

describe("what people ask", () => {
  it.each(Object.keys(BEFORE))(
    "is answered in at least 9 of 10, and nothing is ordered by it: %s",
    (where) => {
      const wrong = LANGUAGES.flatMap((language) =>
        QUESTIONS[language].flatMap((question) => {
          const how = wrongWith(openShop(menu), BEFORE[where] ?? [], question, language);
          return how === null ? [] : [`${how}: ${question.subject}: ${question.text}`];
        }),
      );
      expect(wrong.filter((one) => one.startsWith("ordered"))).toEqual([]);
      expect(wrong.length).toBeLessThanOrEqual(12);
    },
  );
});

describe("what people ask in other words", () => {
  it("is answered in at least 9 of 10, and nothing is ordered by it", () => {
    const wrong = Object.values(BEFORE).flatMap((before) =>
      LANGUAGES.flatMap((language) =>
        FURTHER_QUESTIONS[language].flatMap((question) => {
          const how = wrongWith(openShop(menu), before, question, language);
          return how === null ? [] : [`${how}: ${question.subject}: ${question.text}`];
        }),
      ),
    );
    expect(wrong.filter((one) => one.startsWith("ordered"))).toEqual([]);
    expect([...new Set(wrong)].slice(4)).toEqual([]);
  });
});

describe("an answer that the stall did not write", () => {
  const { answers: _, ...plain } = menu;
  const shop = openShop({ ...plain, rules: { ...plain.rules, contact: "Tern & Tide, pitch 14" } });

  it.each([
    ["do you ship?", "What you order here is picked up at the stall. If you want it sent, ask us there."],
    ["hacen envios?", "Lo que pides aqui se recoge en el puesto. Si quieres un envio, pregunta ahi."],
    ["can i bring my own shirt?", "Please ask at the stall."],
    ["how late are you open?", "open until 6:00 PM."],
    ["hasta que hora estan?", "Abierto hasta las 18:00."],
  ])("is plain and true: %s", (question, answer) => {
    expect(texter(shop).text(question)).toContain(answer);
  });
});

describe("a time of day", () => {
  const at = (time: string): number => Date.parse(`2027-05-0${time}:00-04:00`);
  const clock = { menu, timeZone: "America/New_York", now: at("1T12:00") };
  const fair = { ...clock, opening: { open: false, opens: null } as const };

  it("of midnight is said by its name, as the end of its day", () => {
    const said = (language: "en" | "es", time: string) => timeOf(fair, { language }, at(time));
    expect([
      said("en", "2T00:00"),
      said("en", "3T00:00"),
      said("en", "2T00:30"),
      said("en", "1T23:30"),
    ]).toEqual(["midnight", "Sun, midnight", "Sun 12:30 AM", "11:30 PM"]);
    expect([said("es", "2T00:00"), said("es", "3T00:00")]).toEqual(["medianoche", "dom, medianoche"]);
  });

  it("has no day within the hours that are under way", () => {
    const opening = { open: true, opens: at("1T10:00"), closes: at("2T01:00") } as const;
    expect(timeOf({ ...clock, opening }, { language: "en" }, at("2T01:00"))).toBe("1:00 AM");
    expect(timeOf({ ...clock, opening }, { language: "en" }, at("2T10:00"))).toBe("Sun 10:00 AM");
  });

  it("has its article in Spanish", () => {
    expect(
      ["22:00", "1:00", "0:30", "13:00", "medianoche", "dom, 10:00", "dom, medianoche"].map(hour),
    ).toEqual([
      "las 22:00",
      "la 1:00 de la madrugada",
      "las 0:30 de la madrugada",
      "las 13:00",
      "la medianoche",
      "el dom a las 10:00",
      "el dom a la medianoche",
    ]);
    expect(["1:00", "22:00", "dom, 10:00"].map(atHour)).toEqual([
      "a la 1:00 de la madrugada",
      "a las 22:00",
      "el dom a las 10:00",
    ]);
  });

  it("reads well in Spanish at a stall that closes after midnight", () => {
    const opening = { open: true, opens: at("1T18:00"), closes: at("2T01:00") } as const;
    const spanish = { language: "es" } as const;
    const closes = timeOf({ ...clock, opening }, spanish, opening.closes);
    const opens = timeOf({ ...clock, opening }, spanish, at("2T18:00"));
    expect(ANSWERS.es.sentences.hours({ closes, opens })(0)).toBe(
      "Abierto hasta la 1:00 de la madrugada. Abrimos otra vez el dom a las 18:00.",
    );
  });
});

describe("what people order", () => {
  it("is never taken for a question", () => {
    const rows = [
      ...READINGS.map(([text, language, reading]) => ({ text, language, reading })),
      ...UNSEEN,
      ...COMMON_ORDERS.map((text) => ({ text, language: "en" as const, reading: "an order" })),
    ];
    const taken = rows.flatMap(({ text, language, reading }) => {
      if (reading === "unknown") return [];
      const asked = questionIn(lexiconOf(menu), language, text, read(menu, language, FRESH, text));
      // The question "how long" is answered with the orders' state.
      return asked === null || (reading === "STATUS" && asked.subject === "wait")
        ? []
        : [`${asked.subject}: ${text} (${reading})`];
    });
    expect(taken).toEqual([]);
  });
});

describe("the table of questions", () => {
  it("has 60 of each language, none twice", () => {
    for (const questions of Object.values(QUESTIONS))
      expect(new Set(questions.map(({ text }) => text.toLowerCase())).size).toBe(60);
  });
});
