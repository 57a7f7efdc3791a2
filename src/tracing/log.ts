/**
 * One line of JSON for each event, for the platform's log. Never a name, a number or a message: we choose the members
 * field by field, and of an exception only what we wrote ourselves.
 */

export type Facts = Readonly<Record<string, string | number>>;

export function log(level: "info" | "warn" | "error", what: string, facts: Facts): void {
  // biome-ignore lint/suspicious/noConsole: the console is where the platform collects logs from
  console[level](JSON.stringify({ level, what, ...facts }));
}

/** Of a stack, the places in the code; its first lines repeat the message, which may quote what somebody sent. */
const FRAME = /^ {4}at [^\n]{1,200}/gm;
const MOST_FRAMES = 5;

/**
 * An exception as facts for the log: its kind and where it came from. Its message only if it is an `Error` of our own:
 * those of the language and of libraries quote their input ("Unexpected token 'A', \"Anna…\"").
 */
export function faultFacts(error: unknown): Facts {
  if (!(error instanceof Error)) return { error: typeof error };
  const { name, message, stack = "" } = error;
  const at = (stack.match(FRAME) ?? []).slice(0, MOST_FRAMES).map((frame) => frame.trim());
  return {
    error: name,
    ...(Object.getPrototypeOf(error) === Error.prototype && name === "Error" ? { message } : {}),
    ...(at.length === 0 ? {} : { at: at.join(" | ") }),
  };
}
