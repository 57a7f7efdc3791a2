/** A stall that moves: its customer is sent on from the old page and finds the conversation at the new one. */
import { expect, it } from "vitest";
import type { WholeStall } from "../../src/model/accounts/whole-stall.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L } from "./crew-page.ts";
import { openStage } from "./stage.ts";

let stall: CrewStall;

const stage = openStage(async () => {
  stall = await crewStall(stage.running, [[NAVY_L]]);
});

it("the crew sends people on from the close-out page; an open page follows with its conversation; undo brings it back", async () => {
  const origin = stage.running.url;
  const [, , , fair, , name] = stall.base.split("/");
  const visitor = await openPage(stage.browser, `${origin}/at/${fair}/${name}`);
  await visitor.page.locator("#text").fill("1 navy L");
  await visitor.page.getByRole("button", { name: "Send", exact: true }).click();
  await expect.poll(() => visitor.page.locator("main").textContent()).toContain("YES");

  const { body: file } = await stall.crew.get<WholeStall>(`${stall.base}/everything`);
  const next = stall.base.replace(/[^/]+$/, "moved-here");
  const { body } = await stage.running.anyone
    .withKey(stall.organiserKey)
    .put<{ key: string }>(next, { name: "Moved here" });
  expect((await stage.running.anyone.withKey(body.key).put(`${next}/everything`, file)).status).toBe(200);

  const crew = await openPage(stage.browser, stall.link("/closeout"));
  await crew.page.locator("#moved-to").fill("tern");
  await crew.page.locator("#moved-to").evaluate((field) => field.setAttribute("type", "text"));
  await crew.page.getByRole("button", { name: "Send people on" }).click();
  expect(await crew.page.locator("#moved-fault").textContent()).toContain("Paste the link");
  await crew.page.locator("#moved-to").fill(`${origin}/crew/${fair}/moved-here#key=${body.key}`);
  await crew.page.getByRole("button", { name: "Send people on" }).click();
  await expect.poll(() => crew.page.locator("#moved-now").textContent()).toContain(`/at/${fair}/moved-here`);
  await expectAccessible(crew.page);

  // The open page polls within seconds, and finds that the stall has moved.
  await expect.poll(() => visitor.page.title()).toBe("This stall has moved");
  await expectAccessible(visitor.page);
  await visitor.page.locator("#new-address").click();
  await expect.poll(() => visitor.page.locator("main").textContent()).toContain("1 navy L");
  expect(visitor.page.url()).toBe(`${origin}/at/${fair}/moved-here`);

  await crew.page.getByRole("button", { name: "Undo: the stall is here" }).click();
  await expect.poll(() => crew.page.locator("#moved-undo").isVisible()).toBe(false);
  await visitor.page.goto(`${origin}/at/${fair}/${name}`);
  await expect.poll(() => visitor.page.locator("#stall-name").textContent()).toBe("Tern & Tide");
  await crew.close();
  await visitor.close();
}, 120_000);
