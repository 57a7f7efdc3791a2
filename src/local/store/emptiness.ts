/** Whether a folder's store holds no stall yet. */
import { readdir } from "node:fs/promises";

/** A stall's own file is named by its object's id; one is the health check's. */
const OBJECT = /^[0-9a-f]{64}\.sqlite$/;

export async function isEmptyStore(data: string): Promise<boolean> {
  const files = await readdir(`${data}/do/stallpress-Stall`).catch(() => []);
  return files.filter((file) => OBJECT.test(file)).length <= 1;
}
