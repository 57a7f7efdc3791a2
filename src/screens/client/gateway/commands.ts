/** What the owner types so that a mapping has its secrets. They are never typed into a page. */
import type { GatewayMapping } from "../../../model/fair/gateway.ts";
import { slotsIn, strings } from "../../../texting/template.ts";

/** Names that every fair may use; the owner lists the others. */
const EVERYBODYS = ["GATEWAY_URL", "GATEWAY_SECRET", "GATEWAY_NUMBER"];

/** The names of the secrets and settings that a mapping uses, in order. */
function bindingsIn(mapping: GatewayMapping): readonly string[] {
  const { verification, outbound } = mapping;
  const named = strings({ outbound, numbers: mapping.numbers }).flatMap(([, text]) =>
    slotsIn(text).flatMap((slot) => {
      const [kind, ...names] = slot.split(":");
      return kind === "binding" || kind === "basic" ? names : [];
    }),
  );
  const secrets = [
    ...(verification.by === "none" ? [] : [verification.secret]),
    ...(outbound.signature === null ? [] : [outbound.signature.secret]),
  ];
  return [...new Set([...secrets, ...named])].sort();
}

type Command = {
  readonly command: string;
  /** What to type when the command asks for it; null: the secret itself. */
  readonly answer: string | null;
};

export type Settings = {
  /** For a deployment. */
  readonly commands: readonly Command[];
  /** For a laptop, before `npm start`. */
  readonly exports: readonly string[];
};

/** The host that a mapping's address names; null if a setting names it. */
const hostIn = ({ outbound: { url } }: GatewayMapping): string | null =>
  /^https:\/\/([^/?#{}]+)/.exec(url)?.[1] ?? null;

/** The commands with which the owner sets all that a mapping names. */
export function settingsFor(mapping: GatewayMapping): Settings {
  const bindings = bindingsIn(mapping);
  const further = bindings.filter((name) => !EVERYBODYS.includes(name));
  const host = hostIn(mapping);
  const listed = [
    ...(further.length === 0 ? [] : [["GATEWAY_BINDINGS", further.join(",")] as const]),
    ...(host === null ? [] : [["GATEWAY_HOSTS", host] as const]),
  ];
  const put = (name: string): string => `npx wrangler secret put ${name}`;
  return {
    commands: [
      ...bindings.map((name) => ({ command: put(name), answer: null })),
      ...listed.map(([name, answer]) => ({ command: put(name), answer })),
    ],
    exports: [
      ...bindings.map((name) => `export ${name}='…'`),
      ...listed.map(([name, answer]) => `export ${name}='${answer}'`),
    ],
  };
}
