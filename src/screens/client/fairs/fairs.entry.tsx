/** @jsxImportSource preact */
/** My fairs: asks each stall whose crew key is kept here for its closed days, keeps them in short, and shows them. */
import { render } from "preact";
import type { Closeout } from "../../../model/accounts/closeout.ts";
import type { PastDay } from "../../../model/accounts/past-day.ts";
import { apiAt } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { giveFile } from "../kit/file.ts";
import { kept } from "../kit/kept.ts";
import { isPressKey } from "../kit/key.ts";
import { spellIn } from "../kit/spelling.ts";
import { local } from "../kit/texts-kept.ts";
import { booksCsv, daysIn, fileOf, isKnown, pastDay, together } from "./history.ts";
import { type Actions, Fairs } from "./view.tsx";

const CREW = /^key crew ([a-z0-9-]+\/[a-z0-9-]+)$/;

const history = kept<readonly PastDay[]>("my fairs", []);
let days: readonly PastDay[] = [];

const actions: Actions = {
  saveFile: () => giveFile("my-fairs.json", "application/json", fileOf(days)),
  saveBooks: () => giveFile("my-fairs.csv", "text/csv", booksCsv(days)),
};

function show(now: readonly PastDay[]): void {
  days = now;
  render(<Fairs days={days} actions={actions} />, byId("fairs"));
}

function say(text: string): void {
  byId("notice").hidden = text === "";
  byId("notice").textContent = text;
}

const add = async (more: readonly PastDay[]): Promise<void> =>
  show(await history.change((before) => together(before, more)));

/** The closed days of a stall that are not known yet; null if it can't be asked now. */
async function closedDays(place: string, key: string): Promise<readonly PastDay[] | null> {
  const [fair = "", stall = ""] = place.split("/");
  const api = apiAt(`/v1/fairs/${fair}/stalls/${stall}`, () => key);
  const latest = await api("/closeout");
  // A stall without a menu has no account yet.
  if (latest.status === 409) return [];
  if (latest.status !== 200) return null;
  const account = latest.body as Closeout; // as the route documents
  // The latest day may have been opened again and closed with other figures: it is read each time.
  const wanted = account.days.filter(
    ({ day, closed }) => closed && day !== account.day && !isKnown(days, place, day),
  );
  const others = await Promise.all(wanted.map(({ day }) => api(`/closeout?day=${day}`)));
  const found = [
    account,
    ...others.flatMap(({ status, body }) => (status === 200 ? [body as Closeout] : [])),
  ];
  return found.flatMap((one) => pastDay(place, one) ?? []);
}

byId<HTMLInputElement>("load").addEventListener("change", (event) => {
  const input = event.target as HTMLInputElement; // the file input of the shell
  const [file] = input.files ?? [];
  void file?.text().then(async (text) => {
    const read = daysIn(text);
    input.value = "";
    if (read === null)
      return say(`${file.name} holds no fairs: nothing was changed. Choose a file saved here.`);
    await add(read);
    say(`${read.length} days are in (${file.name}).`);
  });
});

spellIn(navigator.language);
show(together(await history.read(), []));
const places = local.entries().flatMap(([name, key]) => {
  const place = CREW.exec(name)?.[1];
  return place === undefined || isPressKey(key) ? [] : [{ place, key }];
});
const found = await Promise.all(places.map(({ place, key }) => closedDays(place, key)));
await add(found.flatMap((some) => some ?? []));
const silent = places.filter((_, at) => found[at] === null).map(({ place }) => place);
if (silent.length > 0) say(`Not heard now: ${silent.join(", ")}. What was known of them stands here.`);
