/**
 * Makes a client from the API's own document with a generator that knows nothing of this program, compiles it strictly,
 * and orders a garment with it: whoever builds on the document can do the same.
 */
import { execFile } from "node:child_process";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { promisify } from "node:util";
import { build } from "esbuild";
import { generate } from "openapi-typescript-codegen";
import { example, start } from "../tests/http/running.ts";

const root = fileURLToPath(new URL("..", import.meta.url));

/** What a stranger would write with the client: an order from the menu, and its crew's answer that it is there. */
const ORDERING = `
import { Stallpress } from "./client/index";

export async function order(address: string, fair: string, stall: string, key: string): Promise<string> {
  const { customer } = new Stallpress({ BASE: address });
  const { offers } = await customer.getV1FairsStallsMenu(fair, stall);
  const [offer] = offers.filter(({ left }) => left.some(({ free }) => free > 0));
  const piece = offer?.left.find(({ free }) => free > 0);
  if (offer === undefined || piece === undefined) throw new Error("nothing is left to order");
  const { colour, size } = piece;
  const placed = await customer.postV1FairsStallsOrders(
    fair,
    stall,
    "ordered-with-a-generated-client",
    { lines: [{ offer: offer.offer, colour, size, quantity: 1 }] },
  );
  const { crew } = new Stallpress({ BASE: address, TOKEN: key });
  const { number, lines } = await crew.getV1FairsStallsOrdersWhole(fair, stall, placed.number);
  return \`order \${number}: \${lines.length} line\`;
}
`;

const STRICT = {
  compilerOptions: {
    strict: true,
    noEmit: true,
    target: "es2022",
    module: "esnext",
    moduleResolution: "bundler",
    lib: ["es2022", "dom", "dom.iterable"],
    types: [],
  },
  include: ["."],
};

const folder = await mkdtemp(join(tmpdir(), "stallpress-client-"));
const running = await start();
try {
  const { body } = await running.anyone.get<object>("/v1/openapi.json");
  const document = join(folder, "openapi.json");
  await writeFile(document, JSON.stringify(body));
  await generate({
    input: document,
    output: join(folder, "client"),
    httpClient: "fetch",
    clientName: "Stallpress",
    useUnionTypes: true,
  });
  await writeFile(join(folder, "ordering.ts"), ORDERING);
  await writeFile(join(folder, "tsconfig.json"), JSON.stringify(STRICT));
  await promisify(execFile)(`${root}node_modules/.bin/tsc`, ["-p", folder]);

  const outfile = join(folder, "ordering.mjs");
  await build({ entryPoints: [join(folder, "ordering.ts")], outfile, bundle: true, format: "esm" });
  const { order } = await import(pathToFileURL(outfile).href);
  const fair = await example(running);
  const [stall] = fair.stalls;
  console.log(
    `A client made from the API's document compiles and orders: ${await order(running.url, fair.fair, stall?.stall, stall?.key)}`,
  );
} finally {
  await running.stop();
  await rm(folder, { recursive: true, force: true });
}
