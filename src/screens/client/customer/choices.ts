/**
 * The choices a reply offers, read back from its text: the same reply goes out as a text message, so its
 * list is written for people, and a page turns it into buttons.
 */

export type Choice = {
  /** The text that tapping it sends. */
  readonly say: string;
  /** Its name; empty if the number says it all. */
  readonly label: string;
  /** Whether the list says it is sold out. It can still be chosen, which notes the wish. */
  readonly gone: boolean;
};

export type Asked = { readonly lead: string; readonly choices: readonly Choice[] };

const LISTED = /^(\d{1,2}) (\S.*)$/;
const RANGE = /^(?:\p{L}+ )?1(?: (?:to|a) (\d{1,2}))?$/u;
const MORE = /^(MORE|MÁS|MAS)\b/;
const MORE_AT_END = / (MORE|MÁS|MAS)$/;
const GONE = / (?:sold out|gone|agotado|no hay)$/;
/** Beyond this many a number is quicker typed than found. */
const MOST_BUTTONS = 12;

const choice = (say: string, label: string): Choice => ({ say, label, gone: GONE.test(label) });

/** A reply split into the text before its list, and the list; without a list the whole reply is `lead`. */
export function askedIn(reply: string): Asked {
  const lines = reply.split("\n");
  const listed = inLines(lines);
  if (listed !== null) return listed;
  const last = lines.at(-1) ?? "";
  const question = last.lastIndexOf("?");
  const choices = question < 0 ? [] : inOneLine(last.slice(question + 1).trim());
  if (choices.length === 0) return { lead: reply, choices };
  return { lead: [...lines.slice(0, -1), last.slice(0, question + 1)].join("\n"), choices };
}

/**
 * The one sentence that says which step this was once it is answered: the question of a reply in one line, else its first
 * sentence. In parts, so that the others can be hidden: before, gist, after.
 */
export function gistOf(lead: string): readonly [before: string, gist: string, after: string] {
  const [first = "", ...others] = lead.split("\n");
  const sentences = first.split(/(?<=[.!?])\s+(?=\S)/);
  const asks = others.length === 0 && lead.endsWith("?");
  const gist = (asks ? sentences.at(-1) : sentences[0]) ?? "";
  const at = asks ? lead.length - gist.length : 0;
  return [lead.slice(0, at), gist, lead.slice(at + gist.length)];
}

/** A list with a line for each choice, at the end of the reply. */
function inLines(lines: readonly string[]): Asked | null {
  const more = lines.findIndex((line) => MORE.test(line));
  const end = more < 0 ? lines.length : more;
  let start = end;
  while (start > 0 && LISTED.test(lines[start - 1] ?? "")) start -= 1;
  if (start === end) return null;
  const choices = lines.slice(start, end).flatMap((line) => {
    const [, number, label] = LISTED.exec(line) ?? [];
    return number === undefined || label === undefined ? [] : [choice(number, label)];
  });
  return { lead: lines.slice(0, start).join("\n"), choices: [...choices, ...moreOf(lines[more] ?? "")] };
}

const moreOf = (line: string): readonly Choice[] => {
  const word = MORE.exec(line)?.[1];
  return word === undefined ? [] : [choice(word, line)];
};

/** "1 Navy 2 Sand 3 Black", or "1 to 6", after the question. */
function inOneLine(tail: string): readonly Choice[] {
  const range = RANGE.exec(tail);
  if (range !== null) {
    const most = Number(range[1] ?? 1);
    if (most > MOST_BUTTONS) return [];
    return Array.from({ length: most }, (_, index) => choice(String(index + 1), ""));
  }
  const more = MORE_AT_END.exec(tail)?.[1];
  const tokens = tail.replace(MORE_AT_END, "").split(" ");
  const choices = runTogether(tokens);
  return more === undefined || choices.length === 0 ? choices : [...choices, choice(more, more)];
}

/**
 * Splits a one-line list at each next number. A label may have a number of its own ("2XL", "Size 4"); of two equal
 * numbers in a row the first belongs to the label.
 */
function runTogether(tokens: readonly string[]): readonly Choice[] {
  const first = Number(tokens[0]);
  if (!Number.isInteger(first)) return [];
  const found: Choice[] = [];
  let number = first;
  let label: string[] = [];
  for (const [index, token] of tokens.entries()) {
    if (index === 0) continue;
    const next = token === String(number + 1) && label.length > 0 && tokens[index + 1] !== token;
    if (!next) {
      label.push(token);
      continue;
    }
    found.push(choice(String(number), label.join(" ")));
    number += 1;
    label = [];
  }
  return label.length === 0 ? found : [...found, choice(String(number), label.join(" "))];
}
