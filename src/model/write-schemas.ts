/** `npm run schemas`: writes the JSON Schema 2020-12 files that other programs check against. */
import { mkdir, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { schemaFiles } from "./schema-files.ts";

const folder = fileURLToPath(new URL("../../schemas", import.meta.url));
await mkdir(folder, { recursive: true });
for (const [name, text] of schemaFiles()) await writeFile(`${folder}/${name}`, text);
