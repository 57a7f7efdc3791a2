/** The page that makes a gateway's mapping from its examples. */
import { readFileSync } from "node:fs";
import { h } from "preact";
import render from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { GatewayMapping } from "../../src/model/fair/gateway.ts";
import { settingsFor } from "../../src/screens/client/gateway/commands.ts";
import {
  type Draft,
  draftOf,
  mappingOf,
  mistakeOf,
  readBack,
  withReceiptExample,
  withSendExample,
  withTextExample,
} from "../../src/screens/client/gateway/draft.ts";
import { readExample } from "../../src/screens/client/gateway/example.ts";
import { counted, countWords, firstState } from "../../src/screens/client/gateway/state.ts";
import { Gateway } from "../../src/screens/client/gateway/view.tsx";
import { readTexts } from "../../src/texting/mapping/inbound.ts";
import { mappingFaults } from "../../src/texting/mapping/mapping-faults.ts";
import { OPEN_STANDARD, PLAIN } from "../../src/texting/mapping/mappings.ts";

const LANTERN = GatewayMapping.parse(
  JSON.parse(readFileSync(new URL("../../examples/gateway.json", import.meta.url), "utf8")),
);
const all = () => "+12125550199";

function whole(draft: Draft): GatewayMapping {
  const mapping = mappingOf(draft);
  if (!mapping.ok) throw new Error(JSON.stringify(mapping.refusal));
  return GatewayMapping.parse(mapping.value);
}

describe("a saved mapping", () => {
  it.each([
    ["plain", PLAIN],
    ["the example's", LANTERN],
  ])("comes out of the page as it went in: %s", (_, mapping) => {
    expect(whole(draftOf(mapping))).toEqual(mapping);
  });
  it("of an open standard, whose receipts stand one object deeper, reads and sends the same", () => {
    const made = whole(draftOf(OPEN_STANDARD));
    expect({ ...made, receipts: null }).toEqual({ ...OPEN_STANDARD, receipts: null });
    expect(mappingFaults(made, all, false, null)).toEqual(mappingFaults(OPEN_STANDARD, all, false, null));
  });
});

const NESTED = JSON.stringify({
  count: 2,
  notes: [
    { key: "n1", sender: { number: "+12125550101" }, words: "menu", sentAt: "2027-06-12T14:00:00Z" },
    { key: "n2", sender: { number: "+12125550102" }, words: "stop", sentAt: "2027-06-12T13:59:00Z" },
  ],
});

describe("a pasted example", () => {
  it("is JSON or a form, also with a field a line; anything else is neither", () => {
    expect(readExample('{"a~b":{"c/d":7}}')?.fields).toEqual([{ place: "/a~0b/c~1d", value: "7" }]);
    expect(readExample("by=%2B1212\n words=two+words ")?.fields).toEqual([
      { place: "by", value: "+1212" },
      { place: "words", value: "two words" },
    ]);
    for (const neither of ["", "hello", "<note/>", "7", "POST /hook HTTP/1.1\nHost: x"])
      expect(readExample(neither)).toBeNull();
  });

  it("is guessed by its names, corrected by a tap, and reads a list of texts wherever the list is", () => {
    const draft = withTextExample(draftOf(PLAIN), NESTED);
    expect(draft.inbound.picks).toEqual({
      from: "/notes/0/sender/number",
      text: "/notes/0/words",
      at: "/notes/0/sentAt",
    });
    expect(mappingOf(draft)).toMatchObject({
      ok: false,
      refusal: [{ part: "inbound", detail: expect.stringContaining("id: tap the field") }],
    });
    const tapped = {
      ...draft,
      inbound: { ...draft.inbound, picks: { ...draft.inbound.picks, id: "/notes/1/key" } },
    };
    const { inbound } = whole(tapped);
    expect(inbound).toMatchObject({ messages: "/notes", id: "/key", from: "/sender/number", text: "/words" });
    const read = readTexts(inbound, NESTED);
    expect(read.ok && read.value.map(({ id, from }) => [id, from])).toEqual([
      ["n2", "+12125550102"],
      ["n1", "+12125550101"],
    ]);
    expect(readBack(tapped)?.text).toBe("stop");
    const apart = {
      ...tapped,
      inbound: { ...tapped.inbound, picks: { ...tapped.inbound.picks, to: "/count" } },
    };
    expect(mappingOf(apart)).toMatchObject({
      ok: false,
      refusal: [{ detail: expect.stringContaining("same message") }],
    });
  });

  it("of a receipt needs its words, which the fair checks", () => {
    const draft = withReceiptExample(draftOf(PLAIN), "mark=brackenfield.tern.1&fate=arrived");
    expect(draft.receipts?.picks).toEqual({ status: "fate" });
    const tapped = {
      ...draft,
      receipts: {
        ...(draft.receipts ?? { sample: "", picks: {} }),
        picks: { id: "mark", status: "fate" },
        delivered: "arrived",
        failed: "lost, no-such-phone",
      },
    };
    expect(whole(tapped).receipts).toMatchObject({
      body: "form",
      id: "mark",
      failed: ["lost", "no-such-phone"],
    });
  });
});

describe("an example of a request", () => {
  it("keeps what is not tapped, what stands around a number, and digits without a plus", () => {
    const example = JSON.stringify({
      channel: "text",
      destination: ["tel:+12125550101"],
      sender: "12125550199",
      content: "Hello",
      retries: 3,
    });
    const draft = withSendExample(draftOf(PLAIN), example);
    const { body } = whole({
      ...draft,
      sending: { ...draft.sending, picks: { "/destination/0": "to", "/sender": "from", "/content": "text" } },
    }).outbound;
    expect(body).toEqual({
      as: "json",
      value: {
        channel: "text",
        destination: ["tel:{to}"],
        sender: "{from-digits}",
        content: "{text}",
        retries: 3,
      },
    });
  });

  it("loses the slot of a field that is tapped again", () => {
    const draft = draftOf(PLAIN);
    const { "/id": _, ...picks } = draft.sending.picks;
    const { body } = whole({ ...draft, sending: { ...draft.sending, picks } }).outbound;
    expect(body).toMatchObject({ value: { id: "", to: "{to}" } });
  });

  it("says which tap is missing", () => {
    const draft = withSendExample(draftOf(PLAIN), "account=7\nsubject=x");
    expect(mappingOf(draft)).toMatchObject({
      ok: false,
      refusal: [
        { part: "outbound", detail: "Receiver: tap the field that holds it." },
        { part: "outbound", detail: "Text: tap the field that holds it." },
      ],
    });
  });
});

it("prints the commands for every secret that the mapping names, and lists those that are not everybody's", () => {
  const { commands } = settingsFor({
    ...LANTERN,
    outbound: { ...LANTERN.outbound, url: "https://relay.example/out" },
  });
  expect(
    commands.map(({ command, answer }) => [command.replace("npx wrangler secret put ", ""), answer]),
  ).toEqual([
    ["GATEWAY_PASSWORD", null],
    ["GATEWAY_SECRET", null],
    ["GATEWAY_USER", null],
    ["GATEWAY_BINDINGS", "GATEWAY_PASSWORD,GATEWAY_USER"],
    ["GATEWAY_HOSTS", "relay.example"],
  ]);
});

it("names a fault of the fair by the page's own words, beside its part", () => {
  const faults = mappingFaults(
    { ...PLAIN, inbound: { ...PLAIN.inbound, from: "/nobody" }, country: "ZZ" },
    (name) => (name === "GATEWAY_SECRET" ? undefined : all()),
    false,
    null,
  );
  expect(faults.map(mistakeOf)).toEqual(
    expect.arrayContaining([
      { part: "inbound", detail: "Sender: finds nothing in the sample" },
      {
        part: "verification",
        detail: expect.stringMatching(/^The secret: the binding GATEWAY_SECRET is missing/),
      },
      { part: "about", detail: expect.stringMatching(/^The country: /) },
    ]),
  );
});

it("counts only texts that came in since the page was opened, and says if a signature does not fit", () => {
  const pace = (textsIn: number, textsOut: number, badSignatures: number) =>
    ({ total: { textsIn, textsOut }, texts: { badSignatures } }) as Parameters<typeof counted>[1]; // all that is read
  const first = counted(firstState(draftOf(PLAIN), true), pace(7, 9, 1));
  expect(countWords(first)).toMatch(/^None has come in/);
  expect(countWords(counted(first, pace(8, 10, 1)))).toBe(
    "1 came in since you opened this page, 1 went out.",
  );
  expect(countWords(counted(first, pace(7, 9, 2)))).toContain("signature that does not fit");
});

it("shows the fields of the example, the way it is read, and no secret", () => {
  const actions = {
    edit: () => undefined,
    save: () => undefined,
    typeTryTo: () => undefined,
    attempt: () => undefined,
  };
  const html = render(
    h(Gateway, {
      state: firstState(draftOf(LANTERN), true),
      actions,
      hook: "https://fair.example/v1/fairs/low",
    }),
  );
  expect(html).toContain("https://fair.example/v1/fairs/low/texts");
  expect(html).toContain("wrote “tern 1 navy L”");
  expect(html).toContain("npx wrangler secret put GATEWAY_SECRET");
  expect(html).toContain("Send me a text");
  expect(html).not.toContain('type="password"');
});
