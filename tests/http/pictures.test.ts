import { createHash } from "node:crypto";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import { CarriedStall, WholeStall } from "../../src/model/accounts/whole-stall.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import { PicturesView } from "../../src/model/garment/picture.ts";
import { MenuView } from "../../src/model/menu/menu-view.ts";
import { pictureFrom } from "../../src/pictures/kept-picture.ts";
import { JPEG, PNG } from "../pictures/drawn.ts";
import { at, example, type Running, start } from "./running.ts";

let running: Running;
let crew: Client;
let organiser: Client;
let base: string;
let fairBase: string;
let page: string;

beforeAll(async () => {
  running = await start();
  const fair = await example(running);
  base = at(fair);
  page = `/at/${fair.fair}/tern`;
  fairBase = `/v1/fairs/${fair.fair}/stalls`;
  organiser = running.anyone.withKey(fair.key);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});
afterAll(() => running.stop());

const type = (of: string) => ({ "content-type": of });
const put = (design: string, bytes: Uint8Array, of = "image/png") =>
  crew.put<unknown>(`${base}/designs/${design}/picture`, bytes, type(of));
const look = async (offer: string) =>
  Object.entries(MenuView.parse((await running.anyone.get(`${base}/menu`)).body).looks).find(
    ([id]) => id === offer,
  )?.[1];
const seen = (path: string) => fetch(`${running.url}${path}`);

describe("a design's picture", () => {
  it("is kept, named by the SHA-256 of its bytes, and shown for good", async () => {
    const { status, body } = await put("longtail", PNG);
    expect(status).toBe(200);
    const { picture } = PicturesView.parse(body).pictures.find(({ design }) => design === "longtail") ?? {};
    expect(picture).toMatchObject({ type: "image/png", width: 12, height: 8 });
    expect((await look("longtail-tee"))?.picture).toBe(picture?.hash);
    const file = await seen(`${page}/pictures/${picture?.hash}`);
    expect(file.status).toBe(200);
    expect(file.headers.get("cache-control")).toBe("public, max-age=31536000, immutable");
    expect(file.headers.get("x-content-type-options")).toBe("nosniff");
    expect(file.headers.get("content-type")).toBe("image/png");
    const bytes = new Uint8Array(await file.arrayBuffer());
    expect(createHash("sha256").update(bytes).digest("hex")).toBe(picture?.hash);
    const kept = await pictureFrom(PNG);
    expect(kept.ok && kept.value.bytes).toEqual(bytes);
  });

  it("is replaced by another, and gone when it is taken away", async () => {
    await put("longtail", PNG);
    const before = (await look("longtail-tee"))?.picture;
    expect((await put("longtail", JPEG, "image/jpeg")).status).toBe(200);
    const after = (await look("longtail-tee"))?.picture;
    expect(after).not.toBe(before);
    expect((await seen(`${page}/pictures/${before}`)).status).toBe(404);
    expect((await crew.delete(`${base}/designs/longtail/picture`)).status).toBe(200);
    expect((await look("longtail-tee"))?.picture).toBeNull();
    expect((await seen(`${page}/pictures/${after}`)).status).toBe(404);
  });

  it("stays while another design has the same", async () => {
    await put("longtail", PNG);
    await put("kite", PNG);
    const hash = (await look("red-kite-tee"))?.picture;
    await crew.delete(`${base}/designs/longtail/picture`);
    expect((await seen(`${page}/pictures/${hash}`)).status).toBe(200);
    await crew.delete(`${base}/designs/kite/picture`);
  });

  it("is told by its bytes, whatever it is called", async () => {
    const { body } = await put("longtail", JPEG, "image/png");
    const { pictures } = PicturesView.parse(body);
    expect(pictures.find(({ design }) => design === "longtail")?.picture.type).toBe("image/jpeg");
  });

  it("is read byte by byte when a write is repeated", async () => {
    const once = { "content-type": "image/png", "idempotency-key": '"the same key twice"' };
    const path = `${base}/designs/longtail/picture`;
    expect((await crew.put(path, PNG, once)).status).toBe(200);
    expect((await crew.put(path, PNG, once)).status).toBe(200);
    expect((await crew.put(path, JPEG, once)).status).toBe(422);
  });

  it.each([
    ["an SVG", new TextEncoder().encode("<svg/>"), "image/svg+xml", 415, "unsupported-type"],
    ["an SVG under another name", new TextEncoder().encode("<svg/>"), "image/png", 415, "unsupported-type"],
    ["half a file", PNG.subarray(0, 60), "image/png", 422, "broken-picture"],
    ["too many bytes", new Uint8Array(60_001), "image/png", 413, "too-large"],
    ["far too many bytes", new Uint8Array(1_000_000), "image/png", 413, "too-large"],
    ["nothing at all", new Uint8Array(), "image/png", 415, "unsupported-type"],
  ])("is refused in words: %s", async (_, bytes, of, status, name) => {
    const refused = await put("longtail", bytes, of);
    expect(refused.status).toBe(status);
    const { type: kind, detail } = refused.body as Problem;
    expect(kind).toBe(`/problems/${name}`);
    expect(detail).toMatch(/[a-z] .*\.$/);
  });

  it("is only the crew's to give, and only of a design on the menu", async () => {
    const path = `${base}/designs/longtail/picture`;
    expect((await running.anyone.put(path, PNG, type("image/png"))).status).toBe(401);
    expect((await put("heron", PNG)).status).toBe(404);
  });

  it("goes along with a carried stall and with everything", async () => {
    await put("otter", JPEG, "image/jpeg");
    const hash = (await look("otter-tee"))?.picture;
    const [carried, everything] = await Promise.all([
      crew.get(`${base}/carry`),
      crew.get(`${base}/everything`),
    ]);
    const files = [
      ["post", "carry", CarriedStall.parse(carried.body)],
      ["put", "everything", WholeStall.parse(everything.body)],
    ] as const;
    for (const [method, path, file] of files) {
      const { body } = await organiser.put<{ key: string }>(`${fairBase}/to-${path}`, { name: path });
      const there = running.anyone.withKey(body.key);
      const to = `${fairBase}/to-${path}`;
      const broken = { ...file, pictures: [{ design: "otter", base64: "AAAA" }] };
      expect((await there[method](`${to}/${path}`, broken)).status).toBe(400);
      expect((await there[method](`${to}/${path}`, file)).status).toBe(200);
      const shown = await seen(`${page.replace("tern", `to-${path}`)}/pictures/${hash}`);
      expect(shown.status, path).toBe(200);
    }
    const { body } = await organiser.put<{ key: string }>(`${fairBase}/without`, { name: "without" });
    const there = running.anyone.withKey(body.key);
    const without = { ...files[1][2], pictures: [] };
    expect((await there.put(`${fairBase}/without/everything`, without)).status).toBe(200);
    const { pictures } = PicturesView.parse((await there.get(`${fairBase}/without/pictures`)).body);
    expect(pictures).toEqual([]);
  });

  it("is there in a rehearsal", async () => {
    await put("otter", JPEG, "image/jpeg");
    const hash = (await look("otter-tee"))?.picture;
    expect((await crew.post(`${base}/rehearsal`)).status).toBe(200);
    expect((await seen(`${page}.rehearsal/pictures/${hash}`)).status).toBe(200);
  });
});
