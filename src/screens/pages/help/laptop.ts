import type { HelpSubject } from "./answer.ts";

export const LAPTOP: HelpSubject = {
  id: "laptop",
  title: "On a laptop at the stall",
  lead: "The second path: no account, no gateway, walk-ups at the counter.",
  answers: [
    [
      "Start it",
      "You need Node.js 20 or newer. In the program’s folder:",
      { run: "npm ci" },
      { run: "npm start" },
      "Open the link that it prints. The crew’s tablets use the laptop over the stall’s own Wi-Fi.",
    ],
    [
      "What it cannot do",
      "No texts without a gateway. Customers’ phones can order only if they join the stall’s network. Over plain http, a crew’s page cannot be loaded again while the laptop is off.",
    ],
    [
      "Look around first",
      "The demo makes an invented fair with two stalls and prints links to its screens. With a crowd, customers and a crew play along:",
      { run: "npm run demo" },
      { run: "npm run demo -- --crowd" },
    ],
    [
      "Keep copies on a stick",
      "The program copies its store every 5 minutes to .data/copies and keeps the newest 24. To put them elsewhere:",
      { run: "STALLPRESS_COPIES=/media/stick npm start" },
      "A copy holds names, numbers and secrets: keep it like cash, and delete it after the fair.",
    ],
    [
      "Prove that a copy opens",
      "Before the fair, and whenever you doubt:",
      { run: "npm run restore-drill" },
      "If the copies are on a stick:",
      { run: "STALLPRESS_COPIES=/media/stick npm run restore-drill" },
      "It opens the newest copy, reads a stall in it, sends nothing, and prints the command that starts from it.",
    ],
    [
      "The laptop dies",
      "On another computer with the program, start from the newest copy. What came later is gone: count the stock.",
      { run: "STALLPRESS_DATA=/media/stick/2027-06-12T14-05-00Z npm start" },
    ],
    ["The port is taken", "Start on another one:", { run: "PORT=8790 npm start" }],
    [
      "Upgrade or go back",
      "Stop the program, keep the folder of its data, put the other version beside it, and start that one on the same data. An older version refuses data of a newer form and changes nothing.",
    ],
    [
      "The disk is full, or the clock was wrong",
      "Make room, or set the clock right. The program goes on by itself and nothing is half-written.",
    ],
  ],
};
