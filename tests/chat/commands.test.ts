import { describe, expect, it } from "vitest";
import { LANGUAGES, WORDINGS } from "../../src/chat/wording/languages.ts";
import { notify } from "../../src/chat/wording/notices.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { texter } from "./customer.ts";
import { exampleMenu } from "./example.ts";
import { NOON, openShop, type Shop } from "./stall.ts";

const HOUR = 60 * MINUTE;

/** Keywords of opting out as industry messaging principles list them, upper and lower case alike. */
const OPT_OUT = ["STOP", "STOPALL", "UNSUBSCRIBE", "CANCEL", "END", "QUIT"];

describe("opting out", () => {
  it.each(OPT_OUT)("%s stops texts, keeps orders, and says once how to reach the stall", (word) => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L", "yes");
    const turn = ana.turn(word);
    expect(turn.optOut).toBe(true);
    expect(turn.replies).toEqual([
      "Tern: you won't get any more texts. Your order is still on; to cancel it, text START, then DROP. Reach us: tern@brackenfield.example. START to get texts again.",
    ]);
    expect(shop.state.order(101)).toBeDefined();
    expect(ana.turn("menu").replies).toEqual([]);
    expect(ana.turn(word).replies).toEqual([]);
    const order = ana.port.orders()[0];
    if (order === undefined) throw new Error("the order stands");
    expect(notify(ana.port, ana.talk, { type: "ready", order, owed: 0 }).text).toBe("");
    const back = ana.turn("start");
    expect(back.optIn).toBe(true);
    expect(back.replies[0]).toContain("Welcome back to Tern.");
  });

  it("is never what a longer text means: that one is asked which order", () => {
    const ana = texter(openShop(exampleMenu()));
    ana.text("1 navy L", "yes");
    const turn = ana.turn("cancel my order");
    expect(turn.optOut).toBeUndefined();
    expect(turn.replies[0]).toBe("What do you want to cancel?\n1 order 101\n2 nothing");
    expect(ana.text("2")).toContain("101: 1st in line");
    ana.text("cancel my order");
    expect(ana.text("1")).toContain("Order 101 is canceled.");
  });

  it("shares no word with anything else in any language", () => {
    for (const language of LANGUAGES) {
      const { stop, help, ...others } = WORDINGS[language].words.commands;
      const words = Object.values(others).flat();
      for (const word of [...stop, ...help, ...OPT_OUT.map((keyword) => keyword.toLowerCase())]) {
        expect(words).not.toContain(word);
      }
    }
  });
});

describe("dropping", () => {
  it("drops the one order there is", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L", "yes");
    expect(ana.text("drop")).toBe("Order 101 is canceled. Text MENU to order again.");
    expect(shop.state.order(101)).toBeUndefined();
    expect(ana.text("drop")).toBe("You have no order to cancel. Text MENU to order.");
  });

  it("asks which if there are several, and takes a number", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L", "yes", "4 black", "yes");
    expect(ana.text("drop")).toBe("What do you want to cancel?\n1 order 101\n2 order 102\n3 nothing");
    expect(ana.text("2")).toContain("Order 102 is canceled");
    expect(ana.text("drop 101")).toContain("Order 101 is canceled");
  });

  it("gives up what was not confirmed, and its stock", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    ana.text("1 navy L");
    expect(shop.state.holds.size).toBe(1);
    expect(ana.text("drop")).toContain("Nothing is ordered.");
    expect(shop.state.holds.size).toBe(0);
  });

  it("leaves alone what is on the press, and what is another's", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    const ben = texter(shop);
    ana.text("1 navy L", "yes");
    expect(ben.text("drop 101")).toBe("You have no open order 101.");
    shop.do({ type: "pull", press: exampleMenu().presses[0]?.id as never }); // the example's first press
    expect(ana.text("drop")).toBe("Order 101 is on the press already; please come to the stall.");
  });
});

describe("asking", () => {
  it("tells the place in line, the minutes left, and ready with the word", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    expect(ana.text("status")).toBe("You have no order yet. Text MENU to see what there is.");
    ana.text("1 navy L", "yes");
    expect(ana.text("status")).toMatch(/^101: 1st in line, about 2 min, word \w+\.$/);
    const press = exampleMenu().presses[0]?.id as never; // the example's first press
    shop.do({ type: "pull", press });
    expect(ana.text("how long?")).toMatch(/^101: being pressed, about \d+ min, word \w+\.$/);
    shop.do({ type: "pressed", job: "101-1" as never }); // brand put on
    expect(ana.text("is it ready")).toMatch(/^101: READY\. Show number 101 and say "\w+"\.$/);
  });

  it("answers HELP with the words there are and how to reach the stall", () => {
    expect(texter(openShop(exampleMenu())).text("INFO")).toBe(
      "Tern: MENU to order, BACK, STATUS, DROP to cancel, SIZES, STOP for no more texts, ERASE ME to be forgotten. Ask us: tern@brackenfield.example",
    );
  });

  it("answers SIZES with chest widths if the blank gives them", () => {
    const ana = texter(openShop(exampleMenu()));
    expect(ana.text("sizes")).toBe("Inches across the chest, laid flat: S 18, M 20, L 22, XL 24, 2XL 26.");
    ana.text("3");
    expect(ana.text("sizes")).toContain("Youth S 15");
    ana.text("menu", "4");
    expect(ana.text("sizes")).toBe("The sizes are not measured; please try one at the stall.");
  });

  it("keeps the list that a number answers", () => {
    const ana = texter(openShop(exampleMenu()));
    ana.text("menu", "1", "help", "status", "sizes");
    expect(ana.text("2")).toContain("Longtail tee, Sand");
  });
});

describe("limits", () => {
  it("answers 20 texts a minute, then is silent, and says so once to the log", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    const turns = Array.from({ length: 25 }, () => ana.turn("menu"));
    expect(turns.filter(({ replies }) => replies.length > 0)).toHaveLength(20);
    expect(turns.map(({ overLimit }) => overLimit ?? false)).toEqual(turns.map((_, index) => index === 20));
    expect(ana.turn("STOP").optOut).toBe(true);
    ana.turn("START");
    shop.now += MINUTE;
    expect(ana.turn("start").replies).toHaveLength(1);
  });

  it("takes 6 of a kind, 12 in an order, 3 orders", () => {
    const ana = texter(openShop(exampleMenu()));
    expect(ana.text("1 navy L x7")).toMatch(/^Up to 6 of one kind by phone; for more come to the stall\./);
    expect(ana.text("6")).toContain("6x Longtail tee, Navy, L");
    expect(ana.text("2 sand M x6")).toContain("6x Red kite tee, Sand, M");
    expect(ana.text("4 black")).toMatch(/^Up to 12 in an order by phone/);
    expect(ana.text("4")).toContain("6x Red kite tee, Sand, M");
    ana.text("yes", "4 black", "yes", "4 navy", "yes");
    expect(ana.text("menu", "5")).toContain("How many?");
    expect(ana.text("1")).toBe("You have 3 open orders; collect one first, or come to the stall.");
  });

  it("asks again for a quantity of nothing", () => {
    const ana = texter(openShop(exampleMenu()));
    expect(ana.text("0 black caps")).toContain("How many? 1 to 6");
    expect(ana.text("0")).toContain("That number isn't on the list.");
  });
});

describe("when nothing is taken", () => {
  const at = (shop: Shop, now: number): Shop => {
    shop.now = now;
    return shop;
  };

  it("says when to come back outside the hours, and keeps the ask", () => {
    const shop = at(openShop(exampleMenu()), NOON - 3 * HOUR);
    const ana = texter(shop);
    expect(ana.text("menu")).toBe("Tern is closed now. Come back 10:00 AM.");
    expect(ana.text("1 navy L")).toBe("Tern is closed now. Come back 10:00 AM.");
    expect(shop.events.at(-1)).toMatchObject({ type: "asked", unmet: "closed", garments: 1 });
    expect(texter(at(shop, NOON + 7 * HOUR)).text("menu")).toBe(
      "Tern is closed now. Come back Sun 10:00 AM.",
    );
  });

  it("gives the stall's contact line after the fair", () => {
    const ana = texter(at(openShop(exampleMenu()), NOON + 90 * HOUR));
    expect(ana.text("menu")).toBe(
      "Tern at Brackenfield Fair has finished for this fair. Thank you for coming! Reach us: tern@brackenfield.example",
    );
    expect(ana.text("status")).toContain("You have no order yet.");
  });

  it("says so while the crew has paused, and a later YES still works", () => {
    const shop = openShop(exampleMenu());
    const ana = texter(shop);
    shop.do({ type: "pause", reason: "rain" });
    expect(ana.text("1 navy L")).toBe(
      "We've paused and take no orders for the moment. Try again in 10 minutes or so.",
    );
    shop.do({ type: "resume" });
    expect(ana.text("yes")).toContain("Order 101");
  });

  it("says so when the line cannot be pressed before closing", () => {
    const shop = at(openShop(exampleMenu()), NOON + 6 * HOUR - 4 * MINUTE);
    const ana = texter(shop);
    expect(ana.text("1 navy L")).toBe(
      "Sorry, the line is too long to press that before we close at 6:00 PM. Come back Sun 10:00 AM.",
    );
    expect(shop.events.at(-1)).toMatchObject({ type: "asked", unmet: "too-long" });
  });
});

describe("languages", () => {
  it("follow the customer's words, then stay", () => {
    const ana = texter(openShop(exampleMenu()));
    expect(ana.text("hola")).toContain("Manda un numero:\n1 Camiseta mito $24");
    expect(ana.text("1")).toBe("Camiseta mito, $24. ¿De qué color? 1 Azul marino 2 Arena 3 Verde bosque");
    expect(ana.text("2 L")).toContain("Camiseta mito, Arena, L: $24, en unos 2 min.");
    expect(ana.text("sí")).toContain("Pedido 101");
    expect(ana.text("english")).toContain("Text a number");
  });

  it("keep what the stall typed on the web, and write it in the text alphabet in texts", () => {
    const shop = openShop(exampleMenu());
    expect(texter(shop, "web", "es").text("4")).toBe(
      "Gorra charrán, $18. ¿De qué color? 1 Azul marino 2 Negro",
    );
    expect(texter(shop, "text", "es").text("4")).toBe(
      "Gorra charran, $18. ¿De qué color? 1 Azul marino 2 Negro",
    );
  });
});
