/** @jsxImportSource preact */
/** How the gateway signs what it sends. */
import type { GatewayMapping, SignedPart } from "../../../model/fair/gateway.ts";
import { Tap } from "../parts/tap.tsx";
import { Picked, Typed } from "./fields.tsx";

type Verification = GatewayMapping["verification"];
type By<B extends Verification["by"]> = Extract<Verification, { readonly by: B }>;

const WAYS = [
  ["hmac", "It sends a signature made with a shared secret (HMAC)"],
  ["header", "It sends a password in a header"],
  ["message-signature", "It sends HTTP Message Signatures (RFC 9421)"],
  ["none", "It does not sign (only where nobody else can reach this computer)"],
] as const;

const HASHES = [
  ["SHA-256", "SHA-256"],
  ["SHA-1", "SHA-1"],
  ["SHA-512", "SHA-512"],
] as const;
const ENCODINGS = [
  ["hex", "hex digits"],
  ["base64", "base64"],
] as const;

const SECRET = "GATEWAY_SECRET";

/** A way's fields before anything is typed. */
function begun(by: Verification["by"]): Verification {
  switch (by) {
    case "hmac":
      return {
        by,
        secret: SECRET,
        hash: "SHA-256",
        encoding: "hex",
        header: "",
        prefix: "",
        parts: [{ part: "body" }],
        joiner: "",
      };
    case "header":
      return { by, header: "", secret: SECRET, prefix: "" };
    case "message-signature":
      return {
        by,
        algorithm: "ed25519",
        secret: SECRET,
        covers: ["@method", "@path", "content-digest"],
        toleranceSeconds: 300,
      };
    case "none":
      return { by };
    default:
      return by satisfies never;
  }
}

const PARTS = [
  ["body", "the whole body"],
  ["url", "the whole address"],
  ["method", "the method"],
  ["fields", "every field of the form, sorted by name"],
  ["header", "a header"],
  ["field", "one field of the form"],
  ["words", "fixed words"],
] as const;

/** A signed part's own words: the name of its header or field. */
const wordsOf = (part: SignedPart): string | null =>
  part.part === "words" ? part.words : "name" in part ? part.name : null;

function partOf(part: SignedPart["part"], words: string): SignedPart {
  switch (part) {
    case "header":
    case "field":
      return { part, name: words };
    case "words":
      return { part, words };
    default:
      return { part };
  }
}

type PartsProps = { readonly parts: readonly SignedPart[]; readonly set: (parts: SignedPart[]) => void };

function Parts({ parts, set }: PartsProps) {
  const replaced = (n: number, part: SignedPart) => set(parts.map((one, m) => (m === n ? part : one)));
  return (
    <fieldset>
      <legend>What is signed, in this order</legend>
      {parts.map((part, n) => {
        const words = wordsOf(part);
        return (
          <div class="pair" key={`${n} ${part.part}`}>
            <Picked
              id={`part-${n}`}
              label={`Part ${n + 1}`}
              value={part.part}
              among={PARTS}
              set={(kind) => replaced(n, partOf(kind, words ?? ""))}
            />
            {words === null ? null : (
              <Typed
                id={`part-words-${n}`}
                label={part.part === "words" ? "The words" : "Its name"}
                value={words}
                set={(typed) => replaced(n, partOf(part.part, typed))}
              />
            )}
            {parts.length === 1 ? null : (
              <Tap
                class="asked"
                label={`Remove part ${n + 1}`}
                onTap={() => set(parts.filter((_, m) => m !== n))}
              >
                Remove
              </Tap>
            )}
          </div>
        );
      })}
      <Tap onTap={() => set([...parts, { part: "url" }])}>Add a part</Tap>
    </fieldset>
  );
}

type SealProps = {
  readonly id: string;
  readonly seal: Pick<By<"hmac">, "secret" | "hash" | "encoding" | "header" | "prefix">;
  readonly set: (more: Partial<SealProps["seal"]>) => void;
};

/** An HMAC in a header: of what comes in, or of what goes out. */
export function Seal({ id, seal, set }: SealProps) {
  return (
    <>
      <div class="pair">
        <Typed
          id={`${id}-header`}
          label="Header with the signature"
          value={seal.header}
          set={(header) => set({ header })}
        />
        <Typed
          id={`${id}-prefix`}
          label="What stands before it"
          help="Such as sha256=, often nothing."
          value={seal.prefix}
          set={(prefix) => set({ prefix })}
        />
      </div>
      <div class="pair">
        <Picked
          id={`${id}-hash`}
          label="Hash"
          value={seal.hash}
          among={HASHES}
          set={(hash) => set({ hash })}
        />
        <Picked
          id={`${id}-encoding`}
          label="Written as"
          value={seal.encoding}
          among={ENCODINGS}
          set={(encoding) => set({ encoding })}
        />
        <Secret
          id={`${id}-secret`}
          label="Name of the shared secret"
          value={seal.secret}
          set={(secret) => set({ secret })}
        />
      </div>
    </>
  );
}

type SecretProps = {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly set: (value: string) => void;
};

/** The name of a secret: in capitals, whatever was typed. */
export const Secret = ({ set, ...props }: SecretProps) => (
  <Typed
    {...props}
    help="A name, never the secret itself."
    set={(typed) => set(typed.toUpperCase().replaceAll(/[^A-Z0-9_]/g, ""))}
  />
);

function SignedTime({
  rule,
  set,
}: {
  readonly rule: By<"hmac">;
  readonly set: (rule: Verification) => void;
}) {
  const { time, ...rest } = rule;
  return (
    <Typed
      id="time-header"
      label="Header with the time of sending"
      help="If the gateway signs one: old copies of a text are then refused. It must be among the signed parts. Empty: none."
      value={time?.header ?? ""}
      set={(header) =>
        set(
          header.trim() === ""
            ? rest
            : { ...rest, time: { unit: "seconds", toleranceSeconds: 300, ...time, header: header.trim() } },
        )
      }
    />
  );
}

function Details({ rule, set }: { readonly rule: Verification; readonly set: (rule: Verification) => void }) {
  switch (rule.by) {
    case "hmac":
      return (
        <>
          <Seal id="sign" seal={rule} set={(more) => set({ ...rule, ...more })} />
          <Parts parts={rule.parts} set={(parts) => set({ ...rule, parts })} />
          {rule.parts.length < 2 ? null : (
            <Typed
              id="joiner"
              label="What stands between the parts"
              help="Often nothing, or a full stop."
              value={rule.joiner}
              set={(joiner) => set({ ...rule, joiner })}
            />
          )}
          <SignedTime rule={rule} set={set} />
        </>
      );
    case "header":
      return (
        <div class="pair">
          <Typed
            id="pass-header"
            label="Header"
            value={rule.header}
            set={(header) => set({ ...rule, header })}
          />
          <Typed
            id="pass-prefix"
            label="What stands before it"
            value={rule.prefix}
            set={(prefix) => set({ ...rule, prefix })}
          />
          <Secret
            id="pass-secret"
            label="Name of the password"
            value={rule.secret}
            set={(secret) => set({ ...rule, secret })}
          />
        </div>
      );
    case "message-signature":
      return (
        <>
          <div class="pair">
            <Picked
              id="algorithm"
              label="Algorithm"
              value={rule.algorithm}
              among={[
                ["ed25519", "ed25519 (a public key)"],
                ["hmac-sha256", "hmac-sha256 (a shared secret)"],
              ]}
              set={(algorithm) => set({ ...rule, algorithm })}
            />
            <Secret
              id="key-secret"
              label="Name of the key, in base64"
              value={rule.secret}
              set={(secret) => set({ ...rule, secret })}
            />
          </div>
          <Typed
            id="covers"
            label="What a signature must cover"
            help="Names with commas between; content-digest must be one of them."
            value={rule.covers.join(", ")}
            set={(typed) => set({ ...rule, covers: typed.split(/[,\s]+/).filter((name) => name !== "") })}
          />
        </>
      );
    case "none":
      return null;
    default:
      return rule satisfies never;
  }
}

export function Signing({
  rule,
  set,
}: {
  readonly rule: Verification;
  readonly set: (rule: Verification) => void;
}) {
  return (
    <>
      <Picked
        id="by"
        label="How a text is known to come from the gateway"
        value={rule.by}
        among={WAYS}
        set={(by) => set(begun(by))}
      />
      <Details rule={rule} set={set} />
    </>
  );
}
