import type { HelpSubject } from "./answer.ts";

export const CUSTOMERS: HelpSubject = {
  id: "customers",
  title: "Customers and their phones",
  lead: "Orders by text and on the web, strangers, and what is kept of people.",
  answers: [
    [
      "Which ways can people order?",
      "By text to the stall’s number, on the page that the poster’s code opens, and at the counter. All three draw on one stock and one line.",
    ],
    [
      "Who gets texts?",
      "stallpress never texts a customer who has not texted first. A walk-up who wants a text sends one line, which the counter and the printed tag show: stall, number, pickup word. After five wrong words only the counter can help.",
      "From then on the crew can text that customer from the order: 5 more minutes, We close soon, Please come back.",
    ],
    [
      "Somebody wants no texts",
      "STOP holds for every stall behind the number, also after names and numbers are erased. START undoes it.",
    ],
    [
      "Somebody wants to be forgotten",
      "By text: ERASE ME. On the web: the page What we keep about you, linked from the order page and the poster. Number and conversation go at once. Open orders stay on, with nobody’s name.",
    ],
    [
      "What is kept of people, and until when?",
      "Names, numbers and conversations lie apart from orders and are erased some days after the fair. Counts stay. The organiser sees counts, and the contacts it typed itself.",
    ],
    [
      "Which questions are answered by text?",
      "Cards, place, hours, prices, children’s sizes, shipping, and the wait, in English and Spanish and at any step. Write your own answers on the set-up page. Without one, the reply is made from menu, rules and hours.",
    ],
    [
      "A text that names no stall",
      "If several stalls share the number, the reply lists the three shortest waits and how to choose.",
    ],
    [
      "Strangers empty the stall",
      "Anybody can order on the web without paying. Two rules of the set-up page keep that from emptying the stall. Until its customers come, one internet address has at most 6 garments in line (unclaimedGarments). Further orders stay outside the line for 15 minutes (claimMinutes).",
      "All web orders that nobody has come for hold at most 20 % of the blanks (webHoldPercent). Lower figures keep more for the counter. Higher ones send fewer honest customers there.",
      "The counter lists such orders: Is here puts one in line, Free its garments gives them back, No limit for an hour is for a crowd behind one address. Paying, or texting the order’s code, claims an order too.",
    ],
    [
      "A customer cannot order",
      "Set-up shows why orders were refused. Sold out, paused and too long a line are the stall’s own rules. Too often is a flood from that address.",
    ],
    [
      "Texts rest",
      "The press and the counter say so: the gateway answers nothing, or refuses. Texts older than two hours are given up. Call those customers out.",
    ],
  ],
};
