/** @jsxImportSource preact */
/** Pretend phones side by side: the texts of each, and a line to type. */

/** A message as the handset's own process keeps it. */
type PhoneMessage = {
  readonly id: string;
  readonly from: "phone" | "stall";
  readonly text: string;
  readonly at: string;
  readonly parts: number;
  readonly alphabet: string;
  readonly refused: string | null;
};

export type Phone = {
  readonly number: string;
  readonly messages: readonly PhoneMessage[];
  /** Why the last text was not taken; it stays in the field to be sent again. */
  readonly trouble: string | null;
};

/** "+12125550107" as people read it. */
const spaced = (number: string): string => number.replace(/^(\+1)(\d{3})(\d{3})(\d{4})$/, "$1 $2 $3 $4");

function Slip({ message: { from, text, parts, alphabet, refused } }: { readonly message: PhoneMessage }) {
  const kind = from === "phone" ? "typed" : "arrived";
  return (
    <li class={refused === null ? kind : `${kind} refused`}>
      <p class="text">{text}</p>
      {refused === null ? (
        <p class="size">{`${parts} ${parts === 1 ? "message" : "messages"}, ${alphabet}`}</p>
      ) : (
        <p class="size fault">{`not taken: ${refused}`}</p>
      )}
    </li>
  );
}

type Sends = (phone: Phone, form: HTMLFormElement) => void;

function Handset({ phone, sends }: { readonly phone: Phone; readonly sends: Sends }) {
  const { number, messages, trouble } = phone;
  return (
    <section class="card phone">
      <h2>{spaced(number)}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by the keyboard */}
      <div class="log" role="log" aria-label={`Texts of ${spaced(number)}`} tabIndex={0}>
        <ol class="stack tight">
          {messages.map((message) => (
            <Slip key={message.id} message={message} />
          ))}
        </ol>
      </div>
      <p class="notice" role="alert" hidden={trouble === null}>
        {trouble}
      </p>
      <form
        class="pair"
        onSubmit={(event) => {
          event.preventDefault();
          sends(phone, event.currentTarget);
        }}
      >
        <input
          name="text"
          aria-label={`Text from ${spaced(number)}`}
          autocomplete="off"
          autocapitalize="off"
          maxLength={1600}
          placeholder="Type a text"
        />
        <button type="submit" class="main">
          Send
        </button>
      </form>
    </section>
  );
}

export const Phones = ({ phones, sends }: { readonly phones: readonly Phone[]; readonly sends: Sends }) => (
  <>
    {phones.map((phone) => (
      <Handset key={phone.number} phone={phone} sends={sends} />
    ))}
  </>
);
