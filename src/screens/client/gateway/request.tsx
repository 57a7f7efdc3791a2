/** @jsxImportSource preact */
/** The request that sends a text. */
import { SEND_ROLES } from "./draft.ts";
import { Picked, TappedFields, Typed } from "./fields.tsx";
import type { Access, Sending } from "./sending.ts";
import { Seal, Secret } from "./signing.tsx";

const TOKEN = "GATEWAY_TOKEN";

const ACCESS = [
  ["bearer", "a token (Authorization: Bearer)"],
  ["basic", "a user and a password (Authorization: Basic)"],
  ["header", "a key in a header of its own"],
  ["open", "nothing, or by the signature below"],
] as const;

function begun(type: Access["type"]): Access {
  switch (type) {
    case "open":
      return { type };
    case "bearer":
      return { type, token: TOKEN };
    case "basic":
      return { type, user: "GATEWAY_USER", password: "GATEWAY_PASSWORD" };
    case "header":
      return { type, header: "", token: TOKEN };
    default:
      return type satisfies never;
  }
}

function AccessDetails({ access, set }: { readonly access: Access; readonly set: (access: Access) => void }) {
  switch (access.type) {
    case "open":
      return null;
    case "bearer":
      return (
        <Secret
          id="token"
          label="Name of the token"
          value={access.token}
          set={(token) => set({ ...access, token })}
        />
      );
    case "basic":
      return (
        <div class="pair">
          <Secret
            id="user"
            label="Name of the user"
            value={access.user}
            set={(user) => set({ ...access, user })}
          />
          <Secret
            id="password"
            label="Name of the password"
            value={access.password}
            set={(password) => set({ ...access, password })}
          />
        </div>
      );
    case "header":
      return (
        <div class="pair">
          <Typed
            id="key-header"
            label="Header"
            value={access.header}
            set={(header) => set({ ...access, header })}
          />
          <Secret
            id="token"
            label="Name of the key"
            value={access.token}
            set={(token) => set({ ...access, token })}
          />
        </div>
      );
    default:
      return access satisfies never;
  }
}

const SEAL = { secret: "GATEWAY_SECRET", hash: "SHA-256", encoding: "hex", header: "", prefix: "" } as const;

type Props = {
  readonly sending: Sending;
  readonly set: (more: Partial<Sending>) => void;
  readonly setExample: (example: string) => void;
};

export function Request({ sending, set, setExample }: Props) {
  const { method, url, access, example, picks, signature } = sending;
  return (
    <>
      <div class="pair">
        <Picked
          id="method"
          label="Method"
          value={method}
          among={[
            ["POST", "POST"],
            ["PUT", "PUT"],
          ]}
          set={(to) => set({ method: to })}
        />
        <Typed
          id="url"
          label="Address that texts are sent to"
          help="As the documentation has it, with https. Your account’s number may be in it."
          value={url}
          set={(to) => set({ url: to })}
        />
      </div>
      <Picked
        id="access"
        label="It knows you by"
        value={access.type}
        among={ACCESS}
        set={(type) => set({ access: begun(type) })}
      />
      <AccessDetails access={access} set={(to) => set({ access: to })} />
      <Typed
        id="send-example"
        label="Paste its example of the body that sends a text"
        help="JSON, or a form with a field a line. What you do not tap is sent as it stands."
        lines={6}
        value={example}
        set={setExample}
      />
      <TappedFields
        id="send-fields"
        example={example}
        roles={SEND_ROLES}
        roleOf={(place) => picks[place]}
        tapped={(place, role) => {
          const { [place]: before, ...others } = picks;
          set({ picks: before === role ? others : { ...others, [place]: role } });
        }}
      />
      <label>
        <input
          type="checkbox"
          checked={signature !== null}
          onChange={({ currentTarget }) => set({ signature: currentTarget.checked ? SEAL : null })}
        />
        It wants the body signed
      </label>
      {signature === null ? null : (
        <Seal id="seal" seal={signature} set={(more) => set({ signature: { ...signature, ...more } })} />
      )}
    </>
  );
}
