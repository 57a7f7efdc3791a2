import type { HelpSubject } from "./answer.ts";

/** Prices from the platform's own pages, read on the day below. */
const READ_ON = "25 November 2026";

export const GOING_LIVE: HelpSubject = {
  id: "live",
  title: "Going live",
  lead: "For the owner of a deployment: any phone can order, and nothing at the stall has to keep running.",
  answers: [
    [
      "From nothing to orders in ten minutes",
      "You need Node.js 20 or newer, and an account with Cloudflare, whose free plan is enough to begin. In the program’s folder:",
      { run: "npm ci" },
      { run: "npx wrangler login" },
      { run: "npm run golive -- --check" },
      "The check builds everything and says what would be set. It sends nothing. Then:",
      { run: "npm run golive" },
      "It deploys, makes and sets the two secrets, waits until the worker answers, and prints your link with a code. Open the link, make the fair and the stall, fill in Set-up, and print the poster. Its code opens the order page on any phone.",
    ],
    [
      "The link or the owner’s secret is lost",
      "No secret is kept on disk. Make a new one; the old one stops:",
      { run: "npm run golive -- --new-owner-secret" },
    ],
    [
      "Upgrade a live deployment with tablets open",
      "Do it before opening or in a quiet hour. No order is lost, but a crew should not have to wonder.",
      "First save each stall as a file: Close-out, Save the whole stall. It holds names and numbers: keep it like cash.",
      "Put the new version’s files in the program’s folder and check them. Then deploy:",
      { run: "npm ci" },
      { run: "npm run golive -- --check" },
      { run: "npm run golive" },
      "Tablets may stay open. Their taps are kept for the seconds in which the worker changes, and taps of the earlier version are still understood. Each crew page then says that a newer version is there. Tap its button when nobody waits.",
      "The new version reads the stored orders as they are and rewrites them bit by bit. Look at one stall’s press page and counter: the numbers in line must be the same as before.",
    ],
    [
      "Roll back a live deployment",
      "If the new version does not do what you need, go back to the program that ran before:",
      { run: "npx wrangler deployments list" },
      { run: "npx wrangler rollback" },
      "Orders, stock and keys stay: only the program changes. Crew pages again say that another version is there.",
      "If the new version wrote its orders in a new form, the old program refuses to open them, changes nothing, and says “Written by a newer program”. Then deploy the new version again and everything is there:",
      { run: "npm run golive" },
      "If you must have the old version in that case, make a new fair with it and load the files that you saved before the upgrade. Orders since then are on paper or in the new version only.",
    ],
    [
      "Put the stall on another address",
      "Close-out, Save the whole stall, then load the file into an empty stall at the new place. The old address shows customers the way, and nobody who said STOP is forgotten.",
    ],
    [
      "What it costs",
      "One stall open ten hours with two presses, a counter and a board, 500 orders (200 of them by text) and 300 customers who keep the page open for ten minutes makes some 114,000 requests and 123,000 calls of its stored objects, and writes some 35,000 rows. The free plan allows 100,000 of each a day: about 140 such customers.",
      "The paid plan is $5 a month. 300 such stalls come to about $13 beyond it for one day a month. Texts are your gateway’s price: 600 segments for those 200 orders.",
      `Prices of objects and free limits from developers.cloudflare.com, read on ${READ_ON}; the $5 is from memory. Look again before you rely on them.`,
    ],
    [
      "How large can it get?",
      "One object of the platform answers about 1,000 calls a second. One stall bears some 4,000 customers’ pages open at once. One fair bears some 3,400 busy stalls: each reports to it every five seconds. Fairs share nothing, so any number of them fits.",
      "Beyond that the design must change: stalls would report to one object for each hundred stalls, and those to the fair; customers’ pages would read the menu and the line from a cache for some seconds.",
      "An announcement or a stop reaches the screens of 300 stalls within 10 seconds. At 2,000 stalls it takes about seven times as long.",
    ],
    [
      "All keys must end at once",
      "KEY_SECRET is what every link is made from. A new one ends every link of every fair: do it between fairs only.",
      { run: "npx wrangler secret put KEY_SECRET" },
    ],
  ],
};
