/** Writes a reading in the short form that ./readings.ts describes. */

import type { Draft } from "../../src/chat/talk/talk.ts";
import type { LineReading } from "../../src/chat/understand/garment.ts";
import type { Reading } from "../../src/chat/understand/read.ts";

export function written(reading: Reading): string {
  switch (reading.type) {
    case "nothing":
    case "unknown":
      return reading.type;
    case "number":
      return `#${reading.number}`;
    case "command":
      return [reading.command.toUpperCase(), reading.number].filter((part) => part !== null).join(" ");
    case "garments":
      return reading.lines.map(line).join(" + ");
    default:
      return reading satisfies never;
  }
}

function line({ understood, ambiguous, impossible }: LineReading): string {
  if (ambiguous?.about === "reading") return ambiguous.drafts.map(draft).join(" or ");
  const slots = {
    offer: understood.offer as string | null,
    colour: understood.colour,
    size: understood.size,
  };
  const among = (about: string): string | undefined => {
    if (ambiguous?.about !== about) return undefined;
    const ids =
      "offers" in ambiguous ? ambiguous.offers : "colours" in ambiguous ? ambiguous.colours : ambiguous.sizes;
    return ids.join("|");
  };
  const part = (slot: "offer" | "colour" | "size"): string => {
    const wrong = impossible === slot || (impossible === "number" && slot === "offer");
    return among(slot) ?? (wrong ? "!" : (slots[slot] ?? "-"));
  };
  return [understood.quantity ?? 1, part("offer"), part("colour"), part("size")].join(" ");
}

const draft = ({ quantity, offer, colour, size }: Draft): string =>
  [quantity ?? 1, offer ?? "-", colour ?? "-", size ?? "-"].join(" ");

/** A reading in which nothing is left to ask. */
export const isWhole = (reading: string): boolean =>
  /^\d+ \S+ \S+ \S+( \+ \d+ \S+ \S+ \S+)*$/.test(reading) && !/ [-!]|\|/.test(reading);
