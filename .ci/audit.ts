/**
 * `npm run audit`: asks the registry for known faults in what is shipped, and fails on any that is not on the written
 * list beside this file, or whose entry there has run out. A registry that cannot be reached is said, and fails nothing.
 */
import { execFile } from "node:child_process";
import { readFile } from "node:fs/promises";
import { promisify } from "node:util";

export type Exception = {
  /** The advisory's address. */
  readonly advisory: string;
  readonly package: string;
  /** Why it does no harm here, in a sentence. */
  readonly reason: string;
  /** After this day it is looked at again. */
  readonly until: string;
};

export type Found = { readonly advisory: string; readonly package: string; readonly severity: string };

type Report = {
  readonly error?: { readonly summary?: string };
  readonly message?: string;
  readonly vulnerabilities?: Readonly<
    Record<
      string,
      {
        readonly via: readonly (
          | string
          | { readonly url: string; readonly name: string; readonly severity: string }
        )[];
      }
    >
  >;
};

/** The advisories of a report of `npm audit --json`; null where the registry gave none. */
export function advisoriesIn(text: string): readonly Found[] | null {
  let report: Report;
  try {
    report = JSON.parse(text) as Report; // npm's own format; what is missing is looked for below
  } catch {
    return null;
  }
  if (report.vulnerabilities === undefined) return null;
  const all = Object.values(report.vulnerabilities).flatMap(({ via }) =>
    via.flatMap((cause) =>
      typeof cause === "string"
        ? []
        : [{ advisory: cause.url, package: cause.name, severity: cause.severity }],
    ),
  );
  return [...new Map(all.map((found) => [found.advisory, found])).values()];
}

/** What is found and not excepted, or excepted no longer. */
export function unexcepted(
  found: readonly Found[],
  exceptions: readonly Exception[],
  today: string,
): readonly Found[] {
  return found.filter(
    (one) =>
      !exceptions.some(
        (exception) =>
          exception.advisory === one.advisory &&
          exception.package === one.package &&
          exception.until >= today,
      ),
  );
}

async function main(): Promise<number> {
  const list = new URL("audit-exceptions.json", import.meta.url);
  const exceptions = JSON.parse(await readFile(list, "utf8")) as readonly Exception[]; // our own list
  // npm ends with 1 where it finds anything; its report is on stdout all the same.
  const { stdout } = await promisify(execFile)("npm", ["audit", "--omit=dev", "--json"], {
    timeout: 60_000,
    maxBuffer: 2 ** 26,
  }).catch((error: { stdout?: string }) => ({ stdout: error.stdout ?? "" }));
  const found = advisoriesIn(stdout);
  if (found === null) {
    console.log("audit: the registry does not answer; nothing was checked, and nothing fails for it.");
    return 0;
  }
  const faults = unexcepted(found, exceptions, new Date().toISOString().slice(0, 10));
  for (const { advisory, package: name, severity } of faults)
    console.error(
      `audit: ${name} has a known fault (${severity}): ${advisory}. Update it, or except it in .ci/audit-exceptions.json with a reason.`,
    );
  console.log(`audit: ${found.length} known in what is shipped, ${faults.length} of them not excepted.`);
  return faults.length === 0 ? 0 : 1;
}

if (process.argv[1] === new URL(import.meta.url).pathname) process.exit(await main());
