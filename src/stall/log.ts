/** One line of JSON a happening, for the platform's log. Never a name, a number or what somebody wrote. */
export function log(
  level: "info" | "warn" | "error",
  what: string,
  facts: Readonly<Record<string, string | number>>,
): void {
  // biome-ignore lint/suspicious/noConsole: the console is where the platform collects logs from
  console[level](JSON.stringify({ level, what, ...facts }));
}
