/** The correct names that a misspelt name may mean, by kind; each list is made once for a circuit. */
import { createSpelling, type Spelling } from '../../nearest.js';
import { createLugSpelling, type LugSpace, type LugSpelling } from '../types/lug-names.js';

/** What a name may refer to; a pickup is a part with a coil. */
type Kind = 'part' | 'cavity' | 'plate' | 'pickup';

export class Spellings {
  readonly #all = createSpelling();
  readonly #ofKind: Readonly<Record<Kind, Spelling>> = {
    part: createSpelling(),
    cavity: createSpelling(),
    plate: createSpelling(),
    pickup: createSpelling(),
  };
  readonly #lugs = new Map<LugSpace, LugSpelling>();

  /** Takes a new name. */
  add(name: string, kind: 'part' | 'cavity' | 'plate'): void {
    this.#all.add(name);
    this.#ofKind[kind].add(name);
  }

  /** Notes that the part of this name is a pickup. */
  addPickup(name: string): void {
    this.#ofKind.pickup.add(name);
  }

  /** The names of this kind, all of them where none is given. */
  of(kind?: Kind): Spelling {
    return kind === undefined ? this.#all : this.#ofKind[kind];
  }

  /** The lugs of a type, whichever part of it is wired. */
  ofLugs(type: LugSpace): LugSpelling {
    const known = this.#lugs.get(type) ?? createLugSpelling(type);
    this.#lugs.set(type, known);
    return known;
  }
}
