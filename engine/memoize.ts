/** A function that does its work when it is first asked, and never again. */
export const lazy = <T>(work: () => T): (() => T) => {
  let done: { readonly value: T } | null = null;
  return () => {
    done ??= { value: work() };
    return done.value;
  };
};

/**
 * A function that answers from memory where it was asked the same before.
 *
 * @param isSame whether the answer to the first question is that to the second
 * @param placeOf questions of different places are never the same
 * @param most answers kept for one place, the latest ones
 */
export const memoize = <Question extends readonly unknown[], Answer>(
  answer: (...question: Question) => Answer,
  isSame: (a: Question, b: Question, answer: Answer) => boolean,
  placeOf: (...question: Question) => number = () => 0,
  most = 2,
): ((...question: Question) => Answer) => {
  const kept = new Map<number, { readonly question: Question; readonly answer: Answer }[]>();
  return (...question) => {
    const place = placeOf(...question);
    const here = kept.get(place) ?? [];
    const known = here.find((each) => isSame(each.question, question, each.answer));
    if (known !== undefined && known === here[0]) return known.answer;
    const latest = known ?? { question, answer: answer(...question) };
    kept.set(place, [latest, ...here.filter((each) => each !== known)].slice(0, most));
    return latest.answer;
  };
};

/** Whether two values hold the same: maps, sets, lists and records are compared by what is in them. */
export const areDeepEqual = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (a instanceof Map && b instanceof Map) {
    return a.size === b.size && [...a].every(([key, value]) => b.has(key) && areDeepEqual(value, b.get(key)));
  }
  if (a instanceof Set && b instanceof Set) return a.size === b.size && [...a].every((each) => b.has(each));
  if (Array.isArray(a) !== Array.isArray(b) || a instanceof Map || a instanceof Set) return false;
  return areAlikeInside(a as Inside, b as Inside);
};

type Inside = Readonly<Record<string, unknown>>;

const areAlikeInside = (a: Inside, b: Inside): boolean => {
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => Object.hasOwn(b, key) && areDeepEqual(a[key], b[key]))
  );
};

/** Keeps what was worked out by texts that say what it goes by; of very many the older half is forgotten. */
export class KeptByText<Value> {
  readonly #most: number;
  readonly #kept = new Map<string, Value>();

  constructor(most: number) {
    this.#most = most;
  }

  get(key: string, work: () => Value): Value {
    const known = this.#kept.get(key);
    if (known !== undefined) return known;
    const value = work();
    this.#kept.set(key, value);
    if (this.#kept.size > this.#most) {
      for (const old of [...this.#kept.keys()].slice(0, this.#most >> 1)) this.#kept.delete(old);
    }
    return value;
  }
}

/**
 * A function that does its work once for each object, as long as that lives.
 *
 * The answer hangs on the object itself, where copies do not take it along. A `WeakMap` would keep every object for which
 * the answer leads back to it: the quick collections of JavaScript engines take its values for living, so that all that
 * was planned would wait for a slow one.
 *
 * To be made once for a program, not within another: each has a name of its own for the places of its answers, and
 * JavaScript engines keep a description of every set of names that an object has had.
 */
export const perObject = <Subject extends object, Answer>(
  work: (subject: Subject) => Answer,
): ((subject: Subject) => Answer) => {
  const place: unique symbol = Symbol('answer');
  type Answered = { readonly [place]?: { readonly answer: Answer } };
  const ofSealed = new WeakMap<Subject, { readonly answer: Answer }>();
  return (subject) => {
    const known = (subject as Answered)[place] ?? ofSealed.get(subject);
    if (known !== undefined) return known.answer;
    const found = { answer: work(subject) };
    if (!Reflect.defineProperty(subject, place, { value: found })) ofSealed.set(subject, found);
    return found.answer;
  };
};
