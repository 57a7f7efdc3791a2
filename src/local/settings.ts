/** Settings of a local run, from the environment. */
const DEFAULT_PORT = 8787;

export type LocalSettings = { readonly port: number; readonly data: string };

/** The gateway's settings from the environment: everything that begins with GATEWAY_. */
export function gatewayBindings(
  environment: NodeJS.ProcessEnv = process.env,
): Readonly<Record<string, string>> {
  const set = Object.entries(environment).flatMap(([name, value]) =>
    name.startsWith("GATEWAY_") && value !== undefined ? [[name, value] as const] : [],
  );
  return Object.fromEntries(set);
}

/** `PORT` and `STALLPRESS_DATA`; a port that is no port is said, not guessed at. */
export function localSettings(folder: string, environment: NodeJS.ProcessEnv = process.env): LocalSettings {
  const port = Number(environment["PORT"] ?? DEFAULT_PORT);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    throw new Error(
      `PORT is "${environment["PORT"]}"; set it to a number from 0 to 65535, or leave it out for ${DEFAULT_PORT}.`,
    );
  }
  return { port, data: environment["STALLPRESS_DATA"] ?? folder };
}

/** Where `npm start` keeps timed copies of its store: a second folder, or a stick that `STALLPRESS_COPIES` names. */
export const copiesFolder = (environment: NodeJS.ProcessEnv = process.env): string =>
  environment["STALLPRESS_COPIES"] ?? ".data/copies";
