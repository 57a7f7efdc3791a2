/** Secrets and settings of the deployment that a gateway mapping may use, by name. */
export type Bindings = (name: string) => string | undefined;

/** Bindings that every fair may name. */
const EVERYBODYS: ReadonlySet<string> = new Set(["GATEWAY_URL", "GATEWAY_SECRET", "GATEWAY_NUMBER"]);

/** A list as the owner writes it: names with commas between. */
export const listed = (list: unknown): readonly string[] =>
  typeof list === "string" ? list.split(/[\s,]+/).filter((name) => name !== "") : [];

/**
 * The bindings of an environment that a fair may name: three are everybody's, and the owner lists further ones in
 * GATEWAY_BINDINGS. All begin with GATEWAY_, so that no other secret can be read through a mapping.
 */
export function bindingsOf(env: object): Bindings {
  const values = env as Readonly<Record<string, unknown>>; // read by name and checked
  return (name) => {
    if (!name.startsWith("GATEWAY_")) return undefined;
    if (!EVERYBODYS.has(name) && !listed(values["GATEWAY_BINDINGS"]).includes(name)) return undefined;
    const value = values[name];
    return typeof value === "string" && value !== "" ? value : undefined;
  };
}

/** Says that a binding cannot be used, and what to do; the same whether it is missing or not for fairs. */
export const missingBinding = (name: string): string => {
  if (!name.startsWith("GATEWAY_"))
    return `${name} cannot be used here: a binding's name must begin with GATEWAY_`;
  const set = `the binding ${name} is missing`;
  return EVERYBODYS.has(name)
    ? `${set}: set it with \`wrangler secret put ${name}\``
    : `${set} or not for fairs: the owner sets it with \`wrangler secret put ${name}\` and names it in GATEWAY_BINDINGS`;
};
