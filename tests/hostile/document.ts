/** The worker's own OpenAPI document: every route, its callers, and its body. */
import type { Random } from "../../src/maths/random.ts";
import { Instances, type Schema, type Schemas } from "./instances.ts";

type Operation = {
  readonly security?: readonly Readonly<Record<string, readonly string[]>>[];
  readonly tags?: readonly string[];
  readonly parameters?: readonly { readonly in: string; readonly name: string; readonly schema: Schema }[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: Schema }>> };
  readonly responses: Readonly<Record<string, { readonly content?: Readonly<Record<string, unknown>> }>>;
};

export type Document = {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: {
    readonly schemas: Schemas;
    readonly securitySchemes: Readonly<Record<string, unknown>>;
  };
};

export type Route = {
  readonly method: string;
  readonly path: string;
  /** Kinds of key that open it, by the names of the document's security schemes. */
  readonly keys: readonly string[];
  /** Whether it may be called without a key. */
  readonly open: boolean;
  readonly operation: Operation;
};

export function routesOf(document: Document): readonly Route[] {
  return Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]): Route => {
      const { security } = operation;
      if (security === undefined) throw new Error(`${method} ${path} does not say who may call it`);
      return {
        method: method.toUpperCase(),
        path,
        keys: security.flatMap((way) => Object.keys(way)),
        open: security.some((way) => Object.keys(way).length === 0),
        operation,
      };
    }),
  );
}

export type Place = {
  readonly fair: string;
  readonly stall: string;
  readonly number: number;
  readonly job?: string;
  readonly press?: string;
};

/** The address of a route at a place; other parts of it are drawn from what the document allows. */
export function addressOf({ path, operation }: Route, place: Place, instances: Instances): string {
  const filled = path.replaceAll(/\{(\w+)\}/g, (_, name: keyof Place) => {
    if (name in place) return String(place[name]);
    const parameter = operation.parameters?.find((one) => one.in === "path" && one.name === name);
    return encodeURIComponent(String(instances.of(parameter?.schema ?? { type: "string" })));
  });
  return operation.tags?.includes("planning") ? `${filled}?fair=${place.fair}&stall=${place.stall}` : filled;
}

/** The schema of a route's JSON body, or null if it has none. */
export const bodySchema = ({ operation }: Route): Schema | null =>
  operation.requestBody?.content["application/json"]?.schema ?? null;

export const instancesOf = (document: Document, random: Random): Instances =>
  new Instances(document.components.schemas, random);
