/** Readers of what a client sends: each takes an unknown value and gives it back as what it must be, or says what is wrong with it. */

/** What is wrong with parameters, in one sentence that names the place. */
export class ParamsProblem extends Error {}

/** Gives back the value, cut to its limits; throws a `ParamsProblem` where it is something else. `at` says which value it is. */
export type Reader = (value: unknown, at: string) => unknown;

/** Any value at all, for what is passed on unread or read elsewhere. */
export const anything: Reader = (value) => value;

/** A text of at most so many characters. */
export function text(most = Infinity): Reader {
  return (value, at) => {
    if (typeof value !== 'string') throw wrong(at, 'text', value);
    if (value.length > most) throw new ParamsProblem(`${at} has ${counted(value.length)} characters, more than ${counted(most)}`);
    return value;
  };
}

/** A whole number within limits; one beyond them is refused. */
export function whole(least: number, most: number): Reader {
  return (value, at) => {
    if (!Number.isInteger(value)) throw wrong(at, 'a whole number', value);
    const number = value as number;
    if (number < least || number > most)
      throw new ParamsProblem(`${at} must be from ${counted(least)} to ${counted(most)}, not ${number}`);
    return number;
  };
}

/** A finite number that is cut to the most that is given; one below the least is refused. */
export function upTo(least: number, most: number, isWhole = false): Reader {
  return (value, at) => {
    if (typeof value !== 'number' || !(isWhole ? Number.isInteger(value) : Number.isFinite(value)))
      throw wrong(at, isWhole ? 'a whole number' : 'a finite number', value);
    if (value < least) throw new ParamsProblem(`${at} must be at least ${least}, not ${value}`);
    return Math.min(most, value);
  };
}

export const truth: Reader = (value, at) => {
  if (typeof value !== 'boolean') throw wrong(at, 'true or false', value);
  return value;
};

export function oneOf(...words: readonly string[]): Reader {
  return (value, at) => {
    if (typeof value !== 'string' || !words.includes(value))
      throw wrong(at, words.map((word) => JSON.stringify(word)).join(' or '), value);
    return value;
  };
}

export function list(of: Reader, most = Infinity): Reader {
  return (value, at) => {
    if (!Array.isArray(value)) throw wrong(at, 'a list', value);
    if (value.length > most) throw new ParamsProblem(`${at} has ${counted(value.length)} entries, more than ${counted(most)}`);
    return value.map((item: unknown, index) => of(item, `${at}[${index}]`));
  };
}

/** An object with these members, and others that are passed on unread. */
export function object(members: Readonly<Record<string, Reader>>): Reader {
  return (value, at) => {
    const record = recordOf(value, at);
    const read = Object.entries(members).flatMap(([name, of]) => {
      const own = of(record[name], at === '' ? name : `${at}.${name}`);
      return own === undefined ? [] : [[name, own] as const];
    });
    return { ...record, ...Object.fromEntries(read) };
  };
}

/** An object of values by name. It has no prototype, so that no name finds anything but its own value. */
export function byName(of: Reader, most: number): Reader {
  return (value, at) => {
    const entries = Object.entries(recordOf(value, at));
    if (entries.length > most)
      throw new ParamsProblem(`${at} has ${counted(entries.length)} entries, more than ${counted(most)}`);
    const read = Object.create(null) as Record<string, unknown>;
    for (const [name, item] of entries) read[name] = of(item, `${at}.${name}`);
    return read;
  };
}

/** What may be left out. */
export function optional(of: Reader): Reader {
  return (value, at) => (value === undefined ? undefined : of(value, at));
}

/** What may be null or left out. */
export function nullable(of: Reader): Reader {
  return (value, at) => (value === undefined || value === null ? value : of(value, at));
}

/** The first of these that the value has the member for. */
export function either(first: string, a: Reader, b: Reader): Reader {
  return (value, at) => (Object.hasOwn(recordOf(value, at), first) ? a(value, at) : b(value, at));
}

function recordOf(value: unknown, at: string): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw wrong(at, 'an object', value);
  return value as Record<string, unknown>;
}

function wrong(at: string, wanted: string, value: unknown): ParamsProblem {
  const what = at === '' ? 'The parameters' : at;
  if (value === undefined)
    return new ParamsProblem(at === '' ? 'The parameters are missing' : `${at} is missing: it must be ${wanted}`);
  const is =
    typeof value === 'object' ? (value === null ? 'null' : Array.isArray(value) ? 'a list' : 'an object') : String(value);
  return new ParamsProblem(`${what} must be ${wanted}, not ${is.length > 40 ? `${is.slice(0, 40)}…` : is}`);
}

function counted(number: number): string {
  return number.toLocaleString('en');
}
