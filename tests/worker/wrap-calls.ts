/** How a call to the database goes: what it does when it is let through. */
type Around = (call: () => Promise<unknown>) => Promise<unknown>;

const calls = ["all", "first", "run", "raw"] as const;

/** A real database with something around each call that reaches it, in the order in which they are made. */
export function wrapCalls(database: D1Database, around: Around): D1Database {
  const originals = new WeakMap<object, D1PreparedStatement>();

  function wrapStatement(statement: D1PreparedStatement): D1PreparedStatement {
    const wrapped = new Proxy(statement, {
      get(target, name) {
        const value: unknown = Reflect.get(target, name);
        if (typeof value !== "function") return value;
        if (name === "bind") return (...values: unknown[]) => wrapStatement(target.bind(...values));
        if (!calls.some((call) => call === name)) return value.bind(target);
        return (...values: unknown[]) => around(() => value.apply(target, values) as Promise<unknown>);
      },
    });
    originals.set(wrapped, statement);
    return wrapped;
  }

  return new Proxy(database, {
    get(target, name) {
      if (name === "prepare") return (query: string) => wrapStatement(target.prepare(query));
      if (name === "batch") {
        return (statements: D1PreparedStatement[]) =>
          around(() => target.batch(statements.map((one) => originals.get(one) ?? one)));
      }
      const value: unknown = Reflect.get(target, name);
      return typeof value === "function" ? value.bind(target) : value;
    },
  });
}
