import type { HelpSubject } from "./answer.ts";

export const BEFORE: HelpSubject = {
  id: "before",
  title: "Before the fair",
  lead: "For whoever plans, sets up and tries.",
  answers: [
    [
      "Decide what to bring",
      "The planner starts from an invented fair. Type your own figures over it. It says what to bring by size and colour, and whether the day pays.",
      { to: "/plan", says: "Plan a fair" },
      "All work is done in your browser. The page opens without a network once it was opened.",
    ],
    [
      "Make the fair and the stall",
      "Open the link that the program printed when it started. Each key is shown once, as a link and a code for the tablet or phone it is for. Whoever has a link has its key: share it like one.",
    ],
    [
      "Say what you sell",
      "Set-up: garments with colours and sizes, designs with their settings and a picture, products with prices, bundles, wishes, presses, rules. Use this plan at the stall, on the planning page, fills it. The texts that customers will get stand beside the form.",
    ],
    [
      "Count stock",
      "Menu, Count: by hand, or paste a spreadsheet. What does not fit is shown before anything changes.",
    ],
    [
      "Try it without customers",
      "Set-up: Try it opens a rehearsal, a twin of the stall that counts for nothing. End it and it is gone.",
    ],
    [
      "Print the poster and the sheets",
      "Menu, Print: the price card, the crew’s sheet and hand tags. The poster has the codes and three steps.",
    ],
    [
      "Give a helper the press only",
      "On the page Hours, stalls, keys, make a press link. It pulls, presses, notes what is spoiled, and counts. It cannot refund, discount, change prices or close.",
    ],
    [
      "Use last time’s lessons",
      "Close-out: Plan the next fair begins a plan from this day. My fairs keeps every closed day.",
      { to: "/fairs", says: "My fairs" },
    ],
  ],
};
