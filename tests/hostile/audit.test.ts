import { describe, expect, it } from "vitest";
import { advisoriesIn, unexcepted } from "../../.ci/audit.ts";

const ADVISORY = "https://advisories.test/one";
const report = (via: readonly unknown[]) =>
  JSON.stringify({ vulnerabilities: { outer: { via: ["inner"] }, inner: { via } } });
const known = report([{ url: ADVISORY, name: "inner", severity: "high" }]);
const exception = { advisory: ADVISORY, package: "inner", reason: "never called", until: "2027-01-31" };

describe("the audit of what is shipped", () => {
  it("fails for a fault that is not on the list, and no longer for one that is, until its day", () => {
    const found = advisoriesIn(known) ?? [];
    expect(found).toEqual([{ advisory: ADVISORY, package: "inner", severity: "high" }]);
    expect(unexcepted(found, [], "2027-01-01")).toEqual(found);
    expect(unexcepted(found, [exception], "2027-01-31")).toEqual([]);
    expect(unexcepted(found, [exception], "2027-02-01")).toEqual(found);
    expect(unexcepted(found, [{ ...exception, package: "another" }], "2027-01-01")).toEqual(found);
  });
  it("knows a registry that does not answer from one that knows of nothing", () => {
    expect(advisoriesIn(JSON.stringify({ vulnerabilities: {} }))).toEqual([]);
    for (const silence of ["", "<html>", JSON.stringify({ error: { summary: "ENOTFOUND" } })])
      expect(advisoriesIn(silence)).toBeNull();
  });
});
