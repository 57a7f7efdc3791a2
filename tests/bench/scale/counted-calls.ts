/** A namespace of objects that counts each call of a method. */
type Methods = Record<string, (...given: unknown[]) => unknown>;

export function countedCalls<T extends object>(namespace: T, count: () => void): T {
  return new Proxy(namespace, {
    get(target, name) {
      if (name !== "getByName") return Reflect.get(target, name);
      return (id: string) => {
        const stub = (target as unknown as { getByName: (id: string) => Methods }).getByName(id); // as namespaces have
        return new Proxy(stub, {
          get:
            (_, method: string) =>
            (...given: unknown[]) => {
              count();
              return stub[method]?.(...given);
            },
        });
      };
    },
  });
}
