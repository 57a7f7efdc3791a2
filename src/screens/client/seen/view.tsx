/** @jsxImportSource preact */
/** The stalls of a fair as a visitor chooses among them. */
import { price } from "../../../chat/wording/price.ts";
import type { HowMuchLeft, SeenFair, SeenRow } from "../../../model/fair/seen.ts";
import { isMidnight } from "../../../time/fair-day.ts";

type Words = {
  readonly now: string;
  readonly closed: string;
  readonly stopped: (reason: string) => string;
  readonly noOrders: string;
  readonly unheard: string;
  readonly none: string;
  readonly until: (time: string) => string;
  readonly untilMidnight: string;
  readonly wait: (minutes: number) => string;
  readonly line: Readonly<Record<"none" | "short" | "long", string>>;
  readonly left: Readonly<Record<HowMuchLeft, string>>;
  readonly trouble: Readonly<Record<Trouble, string>>;
};

/** Why the page has no fresh answer. */
export type Trouble = "offline" | "gone" | "busy";

/** What a status other than 200 means to a visitor; 0: no answer came. */
export function troubleOf(status: number): Trouble {
  if (status === 0) return "offline";
  return status === 404 || status === 410 ? "gone" : "busy";
}

const SEEN_WORDS: Readonly<Record<"en" | "es", Words>> = {
  en: {
    now: "Order here",
    closed: "The fair is closed now.",
    stopped: (reason) => `The fair has stopped all orders for now: ${reason}.`,
    noOrders: "takes no orders right now",
    unheard: "wait not known: ask there",
    none: "No stall shows itself here yet.",
    until: (time) => `Open until ${time}.`,
    untilMidnight: "Open until midnight.",
    wait: (minutes) => `about ${minutes} min`,
    line: { none: "no line", short: "a short line", long: "a long line" },
    left: { plenty: "plenty left", few: "few left", gone: "sold out" },
    trouble: {
      offline: "No connection. This page tries again by itself.",
      gone: "There is no such fair here. Scan the code at the stall.",
      busy: "The fair does not answer just now. This page tries again by itself.",
    },
  },
  es: {
    now: "Pedir aquí",
    closed: "La feria está cerrada ahora.",
    stopped: (reason) => `La feria ha parado todos los pedidos por ahora: ${reason}.`,
    noOrders: "ahora no toma pedidos",
    unheard: "espera no conocida: pregunta allí",
    none: "Todavía no hay ningún puesto aquí.",
    until: (time) => `Abierto hasta ${/^1\b/.test(time) ? "la" : "las"} ${time}.`,
    untilMidnight: "Abierto hasta la medianoche.",
    wait: (minutes) => `unos ${minutes} min`,
    line: { none: "sin fila", short: "fila corta", long: "fila larga" },
    left: { plenty: "hay de todo", few: "queda poco", gone: "agotado" },
    trouble: {
      offline: "Sin conexión. Esta página prueba otra vez sola.",
      gone: "Aquí no hay esa feria. Escanea el código del puesto.",
      busy: "La feria no responde ahora. Esta página prueba otra vez sola.",
    },
  },
};

/** Between two prices: a dash and spaces at which no line ends; after a dash that takes a word joiner. */
const TO = "\u00a0–\u2060\u00a0";

/** How far a line reaches, without counting anybody. */
const lineOf = (minutes: number): "none" | "short" | "long" =>
  minutes <= 5 ? "none" : minutes <= 20 ? "short" : "long";

function Stall({
  row,
  fair,
  words,
}: {
  readonly row: SeenRow;
  readonly fair: string;
  readonly words: Words;
}) {
  const [stall, name, makes, lowest, highest, currency, minutes, left, picture] = row;
  const [from, to] = [lowest, highest].map((amount) => price({ currency }, amount));
  const wait =
    minutes === null
      ? words.noOrders
      : minutes === "?"
        ? words.unheard
        : `${words.wait(minutes)}, ${words.line[lineOf(minutes)]}`;
  return (
    <li class="card">
      <div class="row nowrap">
        {picture === null ? null : (
          <img
            src={`/at/${fair}/${stall}/pictures/${picture}`}
            alt=""
            width={96}
            height={96}
            loading="lazy"
          />
        )}
        <div>
          <h2>{name}</h2>
          <p>{`${makes}, ${from === to ? from : `${from}${TO}${to}`}`}</p>
          <p class="strong">{wait}</p>
          <p>{words.left[left]}</p>
        </div>
      </div>
      <a class="button" href={`/at/${fair}/${stall}`} aria-label={`${name}: ${words.now}`}>
        {words.now}
      </a>
    </li>
  );
}

type Props = {
  /** The last answer; null: none yet. */
  readonly seen: SeenFair | null;
  /** Null: the last answer is fresh. */
  readonly trouble: Trouble | null;
  readonly fair: string;
  readonly language: "en" | "es";
};

function Stalls({
  seen: { name, closes, stopped, timeZone, stalls },
  fair,
  language,
}: Props & { readonly seen: SeenFair }) {
  const words = SEEN_WORDS[language];
  const clock = new Intl.DateTimeFormat(language, { timeZone, hour: "numeric", minute: "2-digit" });
  const until = (at: number): string =>
    isMidnight(at, timeZone) ? words.untilMidnight : words.until(clock.format(at));
  return (
    <>
      <p>
        <b>{name}</b>
        <br />
        {closes === null ? words.closed : until(Date.parse(closes))}
      </p>
      {stopped === null ? null : <p class="notice">{words.stopped(stopped)}</p>}
      {stalls.length === 0 ? <p>{words.none}</p> : null}
      <ul class="cards tiles">
        {stalls.map((row) => (
          <Stall key={row[0]} row={row} fair={fair} words={words} />
        ))}
      </ul>
    </>
  );
}

export function Seen(props: Props) {
  const { seen, trouble, language } = props;
  return (
    <div class="stack">
      <p role="status" class={trouble === null ? undefined : "notice"}>
        {trouble === null ? "" : SEEN_WORDS[language].trouble[trouble]}
      </p>
      {seen === null ? null : <Stalls {...props} seen={seen} />}
    </div>
  );
}
