/** Secrets and settings of the deployment that a gateway mapping may use, by name. */
export type Bindings = (name: string) => string | undefined;

/** The bindings of an environment whose names begin with GATEWAY_; no other can be read through a mapping. */
export function bindingsOf(env: object): Bindings {
  return (name) => {
    if (!name.startsWith("GATEWAY_")) return undefined;
    const value = (env as Readonly<Record<string, unknown>>)[name]; // read by name and checked
    return typeof value === "string" && value !== "" ? value : undefined;
  };
}
