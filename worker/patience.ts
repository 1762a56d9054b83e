/** The database did not answer in time, or with nothing that can be read. What was asked of it may still come to be. */
export class OutOfReach extends Error {}

/** An answer that comes after `most` milliseconds changes nothing here, whatever it is. */
export async function withPatience<T>(reading: Promise<T>, most: number): Promise<T> {
  const { promise: tooLong, reject } = Promise.withResolvers<never>();
  const timer = setTimeout(() => reject(new OutOfReach(`No answer in ${most} ms.`)), most);
  try {
    return await Promise.race([reading, tooLong]);
  } finally {
    clearTimeout(timer);
  }
}

type Call = (...values: unknown[]) => Promise<unknown>;
/** What asks the database, and whether what comes back is what D1 says it gives. */
const calls: Readonly<Record<string, (answer: unknown) => boolean>> = {
  first: (answer) => answer !== undefined,
  all: isResult,
  run: isResult,
  raw: Array.isArray,
};

/** The same database, every call of which ends within `most` milliseconds: in its answer or in `OutOfReach`. */
export function limitWaits(database: D1Database, most: number): D1Database {
  const originals = new WeakMap<D1PreparedStatement, D1PreparedStatement>();

  async function ask(call: () => Promise<unknown>, isAnswer: (answer: unknown) => boolean): Promise<unknown> {
    let answer: unknown;
    try {
      answer = await withPatience(call(), most);
    } catch (error) {
      throw error instanceof OutOfReach ? error : new OutOfReach("The database failed.", { cause: error });
    }
    if (!isAnswer(answer)) throw new OutOfReach("The database answered with nothing that can be read.");
    return answer;
  }

  function limitStatement(statement: D1PreparedStatement): D1PreparedStatement {
    const limited = new Proxy(statement, {
      get(target, name) {
        if (name === "bind") return (...values: unknown[]) => limitStatement(target.bind(...values));
        const value: unknown = Reflect.get(target, name);
        const isAnswer = typeof name === "string" ? calls[name] : undefined;
        if (typeof value !== "function") return value;
        if (isAnswer === undefined) return value.bind(target);
        return (...values: unknown[]) => ask(() => (value as Call).apply(target, values), isAnswer);
      },
    });
    originals.set(limited, statement);
    return limited;
  }

  return new Proxy(database, {
    get(target, name) {
      if (name === "prepare") return (query: string) => limitStatement(target.prepare(query));
      const value: unknown = Reflect.get(target, name);
      if (name !== "batch") return typeof value === "function" ? value.bind(target) : value;
      return (statements: D1PreparedStatement[]) =>
        ask(
          () => target.batch(statements.map((one) => originals.get(one) ?? one)),
          (answer) => Array.isArray(answer) && answer.length === statements.length && answer.every(isResult),
        );
    },
  });
}

function isResult(answer: unknown): boolean {
  return (
    typeof answer === "object" && answer !== null && "results" in answer && Array.isArray(answer.results)
  );
}
