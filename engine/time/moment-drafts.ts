import { compare, type Rational, RationalMap, rationalKey } from '../music/rational.ts';

/** A moment of which not all is known yet. */
export interface MomentDraft {
  readonly at: Rational;
  readonly grace: number;
  /** Which of the moments of a pause, from 0; null while the part is played. */
  readonly pause: number | null;
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
    const draft = this.#add(at, grace, null, bar);
    if (grace === 0) this.#onsets.set(at, draft);
    else this.#graces.set(`${rationalKey(at)};${grace}`, draft);
    return draft;
  }

  /** Moments of a pause before a bar. */
  openPause(at: Rational, bar: number, moments: number): void {
    for (let pause = 0; pause < moments; pause += 1) this.#add(at, 0, pause, bar);
  }

  #add(at: Rational, grace: number, pause: number | null, bar: number): MomentDraft {
    const draft = {
      at,
      grace,
      pause,
      bar,
      onBeat: false,
      atRest: false,
      isUncounted: false,
      notesPlucked: 0,
      graceNote: null,
      index: this.#all.length,
    };
    this.#all.push(draft);
    return draft;
  }

  /** Where notes are plucked, in order. */
  plucked(): readonly Rational[] {
    return this.#all.flatMap(({ at, notesPlucked }) => (notesPlucked > 0 ? [at] : [])).sort(compare);
  }

  /** All of them, in order of time. */
  inOrder(): readonly MomentDraft[] {
    this.#all.sort((a, b) => compare(a.at, b.at) || inTurn(a) - inTurn(b));
    this.#all.forEach((draft, i) => {
      draft.index = i;
    });
    return this.#all;
  }
}

/** The moments of a pause come before grace notes, these before their onset. */
const inTurn = ({ grace, pause }: MomentDraft): number =>
  pause === null ? grace : pause - Number.MAX_SAFE_INTEGER;
