/** What is heard, composed while a circuit is drawn: the arrangement that an `expect` line states, never what the program finds. */

/** Nothing; something that a luthier meters instead of naming; or coils. */
export type Voice = 'silent' | 'unnamed' | Arrangement;

interface Arrangement {
  readonly form: 'one' | 'series' | 'parallel';
  readonly text: string;
  readonly members: readonly Arrangement[];
  /** Turned in phase against the others. */
  readonly isReversed: boolean;
}

/** The position of each switch by its part, where it is not the first. */
export type State = ReadonlyMap<object, number>;

/** What sounds at a point of the circuit in each state of the switches. */
export type Sound = (state: State) => Voice;

export function positionIn(state: State, device: object): number {
  return state.get(device) ?? 0;
}

export function one(text: string): Voice {
  return { form: 'one', text, members: [], isReversed: false };
}

export function reversed(voice: Voice): Voice {
  return typeof voice === 'string' ? voice : { ...voice, isReversed: !voice.isReversed };
}

export function parallel(voices: readonly Voice[]): Voice {
  return combined(
    'parallel',
    voices.filter((voice) => voice !== 'silent'),
  );
}

/** In series everything is needed: what is silent there is open. */
export function series(voices: readonly Voice[]): Voice {
  return voices.includes('silent') ? 'silent' : combined('series', voices);
}

function combined(form: 'series' | 'parallel', voices: readonly Voice[]): Voice {
  const [first] = voices;
  if (first === undefined) return 'silent';
  if (voices.length === 1) return first;
  const members: Arrangement[] = [];
  for (const voice of voices) {
    if (typeof voice === 'string') return 'unnamed';
    const inner = voice.form === form ? voice.members : [voice];
    members.push(
      ...inner.map((member) => (inner[0] === voice ? member : { ...member, isReversed: member.isReversed !== voice.isReversed })),
    );
  }
  return { form, text: '', members, isReversed: false };
}

/** The claim of an `expect` line, or nothing where none is made. */
export function claimOf(voice: Voice): string | undefined {
  if (voice === 'unnamed') return undefined;
  return voice === 'silent' ? 'silent' : `sounds ${written({ ...voice, isReversed: false })}`;
}

function written({ form, text, members, isReversed }: Arrangement): string {
  const areAllReversed = members.every((member) => member.isReversed);
  const inner = members.map((member) => written({ ...member, isReversed: member.isReversed && !areAllReversed }));
  const whole = form === 'one' ? text : `${form}(${inner.join(', ')})`;
  return isReversed ? `reversed ${whole}` : whole;
}
