/** The figures as a sheet to keep. */
import { giveFile } from "../kit/file.ts";

const PATIENCE = 30_000;

/** The name that the answer gives its sheet. */
function nameOf(response: Response): string {
  const [, name] = /filename="([^"]+)"/.exec(response.headers.get("Content-Disposition") ?? "") ?? [];
  return name ?? "pace.csv";
}

/** Downloads a sheet. Returns what went wrong, or null. */
export async function giveSheet(address: string, key: string): Promise<string | null> {
  const headers = { Authorization: `Bearer ${key}`, Accept: "text/csv" };
  try {
    const response = await fetch(address, {
      headers,
      signal: AbortSignal.timeout(PATIENCE),
      cache: "no-store",
    });
    const text = await response.text();
    if (response.status === 200) {
      giveFile(nameOf(response), "text/csv", text);
      return null;
    }
    const { detail } = JSON.parse(text) as { readonly detail?: string }; // a problem, as every refusal is
    return detail ?? `The fair answered ${response.status}. Try again.`;
  } catch {
    return "No connection: the sheet could not be fetched. Try again in a moment.";
  }
}
