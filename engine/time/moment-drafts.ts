import { compare, type Rational, RationalMap, rationalKey } from '../music/rational.ts';

/** A moment of which not all is known yet. */
export interface MomentDraft {
  readonly at: Rational;
  readonly grace: number;
  readonly bar: number;
  onBeat: boolean;
  atRest: boolean;
  isUncounted: boolean;
  notesPlucked: number;
  graceNote: string | null;
  /** Place among the moments, once they are sorted. */
  index: number;
}

/** Moments as they are found, one for each place. */
export class MomentDrafts {
  readonly #all: MomentDraft[] = [];
  readonly #onsets = new RationalMap<MomentDraft>();
  readonly #graces = new Map<string, MomentDraft>();

  /** @param grace 0 for the onset itself; grace notes before it count up to -1 */
  find(at: Rational, grace: number): MomentDraft | undefined {
    return grace === 0 ? this.#onsets.get(at) : this.#graces.get(`${rationalKey(at)};${grace}`);
  }

  /** The moment at a place, a new one where there is none. */
  open(at: Rational, grace: number, bar: number): MomentDraft {
    const known = this.find(at, grace);
    if (known !== undefined) return known;
    const index = this.#all.length;
    const draft = {
      at,
      grace,
      bar,
      onBeat: false,
      atRest: false,
      isUncounted: false,
      notesPlucked: 0,
      graceNote: null,
      index,
    };
    this.#all.push(draft);
    if (grace === 0) this.#onsets.set(at, draft);
    else this.#graces.set(`${rationalKey(at)};${grace}`, draft);
    return draft;
  }

  /** Where notes are plucked, in order. */
  plucked(): readonly Rational[] {
    return this.#all.flatMap(({ at, notesPlucked }) => (notesPlucked > 0 ? [at] : [])).sort(compare);
  }

  /** All of them, in order of time. */
  inOrder(): readonly MomentDraft[] {
    this.#all.sort((a, b) => compare(a.at, b.at) || a.grace - b.grace);
    this.#all.forEach((draft, i) => {
      draft.index = i;
    });
    return this.#all;
  }
}
