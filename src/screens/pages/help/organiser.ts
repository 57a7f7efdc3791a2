import type { HelpSubject } from "./answer.ts";

export const ORGANISER: HelpSubject = {
  id: "organiser",
  title: "The organiser",
  lead: "For whoever runs the fair with all its stalls.",
  answers: [
    [
      "See which stall needs a look",
      "The live page says in words who is gone quiet, swamped, paused, out of stock or not set up yet. Tap a stall for its pace, its pages and whom to call there.",
    ],
    [
      "A storm, an evacuation, no power",
      "Stop all orders, with a reason that every crew and customer reads. Web, text and counter stop together and no crew can change that. Presses go on unless you say that pressing stops too. Go on is one tap.",
    ],
    [
      "Say something to the crews",
      "Announcements go to all stalls or to some. They stay on press and counter until somebody taps Read, and you see who has read them. Customers never get them.",
    ],
    [
      "Know whom to call",
      "Tap a stall, then Add whom to call. Only the organiser’s page shows a contact. It is erased 30 days after the fair.",
    ],
    [
      "Compare with last year",
      "After the fair, tap Save this fair’s figures under Beside last year. Next year, open that file in the same place: it compares with the same day and time of day.",
    ],
    [
      "Show visitors all stalls",
      "The fair’s own page lists every stall that wants to be seen: what it makes, prices, the wait now, what is left. Each stall has its own switch on the set-up page. The address is /at/ and the fair’s short name.",
    ],
    [
      "Set up a text gateway",
      "A text gateway rents you a number and passes texts on. On Hours, stalls, keys, open Text gateway. Paste the gateway’s own example of a text and tap the field that holds the sender, the text and the id.",
      "Say how it signs, paste its example of a request, save, and text MENU from your own phone. If nothing comes back, send yourself a text from the page and read what the gateway answers. Secrets are never typed into the page: it prints the commands with which the owner sets them.",
    ],
    [
      "Change hours or add a stall",
      "On Hours, stalls, keys. Every stall opens, closes and calls last orders by these hours.",
    ],
    [
      "A link got into the wrong hands",
      "On Hours, stalls, keys, make a new one. The old one stops at once, or works for a while so that nobody stands without.",
    ],
  ],
};
