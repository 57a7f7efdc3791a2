import type { HelpSubject } from "./answer.ts";

export const AT_THE_STALL: HelpSubject = {
  id: "stall",
  title: "At the stall",
  lead: "For a crew with a queue before it: press, counter, count.",
  answers: [
    [
      "The page says it has no key",
      "On a tablet that works, open Menu, then Add a tablet, and scan the code with this one. Or ask the organiser for the crew link.",
    ],
    [
      "There is no signal",
      "Keep working. Taps are kept on this tablet and sent in order once the signal is back, through reloads and flat batteries. Do not close a private window: it keeps nothing.",
      "A press works on for 20 minutes with the garments reserved for it. The counter takes any number of orders: each browser has 20 pickup numbers and words beforehand.",
      "An order that is sent late is never refused. Garments that are sold out by then are short, and the crew sees it.",
    ],
    [
      "Press a garment",
      "Pull, press, tap Pressed. The tag shows heat, dwell, pressure and where the design goes.",
    ],
    [
      "A garment is spoiled",
      "Press: tap Spoiled, say what is lost and why. The garment goes to the head of the queue if a spare blank and transfer are free. If not, the crew and the customer are told at once.",
    ],
    [
      "A garment is good, but not the one ordered",
      "Press: tap Spoiled, then say that it can be sold. It hangs on the rack, and the counter offers it to whoever asks for just that.",
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
      "All orders are stopped",
      "The fair’s organiser stopped them, for every stall. Finish what is on the presses unless the notice says that pressing stops too. The organiser lets all stalls go on.",
    ],
    [
      "A customer has no phone",
      "Counter: New order. Write the number and the word on a tag and give it to them. If they want a text later, they send the line that the counter shows.",
    ],
    ["The pickup word is wrong", "Do not hand over yet. Ask to see their text or tag, and check the number."],
    [
      "A customer wants another size",
      "An order that is not pressed yet can get another size, colour, design or number of garments: at the counter, or by text (“change 108 to XL”). It keeps its number, word and place. The difference is taken or given at hand-over.",
    ],
    [
      "A garment comes back",
      "Counter: open the order. Refund or exchange each garment. An exchange for the same price costs nothing, also if a bundle or a discount covered the garment. Both can be undone while the garment is still there.",
    ],
    [
      "Payment is part cash, part card",
      "Counter: split the payment. A tip is kept apart. The drawer keeps float, takings, pay-outs and counts.",
    ],
    [
      "Something runs out",
      "Menu, Count: type what is there. What is sold out stays on the menu, marked gone.",
    ],
    [
      "The network is dead and no tablet works",
      "Take orders on paper with the numbers 900 to 999 and the time. Key them in at the counter later.",
    ],
    [
      "The day is over",
      "Menu, Close-out: count what is left, then close the day. A closed day can be opened again.",
    ],
    [
      "A tablet is lost",
      "Ask the organiser for a new crew key (Hours, stalls, keys). The old link can stop at once.",
    ],
  ],
};
