import { describe, expect, it } from "vitest";
import { DesignId } from "../../src/model/basics/ids.ts";
import { MOST_PICTURES_BYTES, PictureFacts } from "../../src/model/garment/picture.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { fold } from "../../src/stall/rules/replay.ts";
import { readJournal } from "../../src/stall/storage/records.ts";
import { exampleMenu, OPENS, type TestStall, testStall } from "./test-stall.ts";

const BYTES = 60_000;
const picture = (n: number): PictureFacts =>
  PictureFacts.parse({
    hash: n.toString(16).padStart(64, "0"),
    type: "image/png",
    width: 640,
    height: 640,
    bytes: BYTES,
  });
const set = (design: string, facts: PictureFacts | null): Command => ({
  type: "set-picture",
  design: DesignId.parse(design),
  picture: facts,
});
/** The example's menu with this many more designs. */
function menuWith(more: number): Menu {
  const menu = exampleMenu();
  const [first] = menu.designs;
  const designs = Array.from({ length: more }, (_, n) => ({ ...first, id: `more-${n}`, name: `More ${n}` }));
  return Menu.parse({ ...menu, designs: [...menu.designs, ...designs] });
}
const agrees = (stall: TestStall): void => {
  const hashes = [...stall.state.pictures.values()].map(({ hash }) => hash).sort();
  const told = fold([...readJournal(stall.store)]);
  expect([...told.pictures.values()].map(({ hash }) => hash).sort()).toEqual(hashes);
  stall.evict();
  expect([...stall.state.pictures.values()].map(({ hash }) => hash).sort()).toEqual(hashes);
};

describe("the pictures of a stall", () => {
  it("are the same in memory, in the records and in the journal", () => {
    const stall = testStall(exampleMenu(), []);
    stall.run(set("kite", picture(1)), OPENS);
    stall.run(set("otter", picture(2)), OPENS);
    stall.run(set("kite", null), OPENS);
    expect([...stall.state.pictures.keys()]).toEqual(["otter"]);
    agrees(stall);
  });

  it("change nothing if they are there already", () => {
    const stall = testStall(exampleMenu(), []);
    stall.run(set("kite", picture(1)), OPENS);
    expect(stall.run(set("kite", picture(1)), OPENS).events).toEqual([]);
    expect(stall.run(set("otter", null), OPENS).events).toEqual([]);
  });

  it("take 4 MB at most together, and one that is replaced makes room for the next", () => {
    // Sixty pictures of 60 kB are 3.6 MB: the stall of a test has larger ones.
    const stall = testStall(menuWith(8), []);
    const large = (n: number): PictureFacts => ({ ...picture(n), bytes: MOST_PICTURES_BYTES / 4 });
    for (let n = 0; n < 4; n += 1) expect(stall.run(set(`more-${n}`, large(n)), OPENS).refusal).toBeNull();
    expect(stall.run(set("more-4", large(4)), OPENS).refusal).toMatchObject({ code: "no-picture-room" });
    expect(stall.run(set("more-3", large(5)), OPENS).refusal).toBeNull();
    agrees(stall);
  });

  it("outlive their design, and make room once they are needed to", () => {
    const stall = testStall(menuWith(2), []);
    stall.run(set("more-0", picture(1)), OPENS);
    stall.run({ type: "set-menu", menu: exampleMenu() }, OPENS);
    expect(stall.state.pictures.size).toBe(1);
    stall.run({ type: "set-menu", menu: menuWith(2) }, OPENS);
    expect([...stall.state.pictures.keys()]).toEqual(["more-0"]);
    stall.run({ type: "set-menu", menu: exampleMenu() }, OPENS);
    stall.run(set("kite", picture(2)), OPENS);
    expect([...stall.state.pictures.keys()]).toEqual(["kite"]);
    agrees(stall);
  });

  it("are of designs on the menu only", () => {
    const stall = testStall(exampleMenu(), []);
    expect(stall.run(set("heron", picture(1)), OPENS).refusal).toMatchObject({ code: "no-such-design" });
  });
});
