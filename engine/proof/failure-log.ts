import type { Letter } from '../music/pitch.ts';
import type { Need } from '../sounding/needs.ts';
import type { Failure, NeedFault } from './marking-playback.ts';

/** Where a pedal stands when a note finds it wrong. */
type WrongPosition = Pick<Failure, 'stands' | 'marking' | 'landedIn' | 'whileHeld'>;

interface OpenFailure extends Omit<Failure, 'needs' | 'passes' | 'faults'> {
  readonly needs: [Need, ...Need[]];
  readonly passes: number[];
  readonly faults: string[];
}

/** Gathers notes that go wrong one after the other for the same reason, and the same on other passes, into failures. */
export class FailureLog {
  readonly #failures = new Map<string, OpenFailure>();
  readonly #open = new Map<Letter, OpenFailure>();
  readonly #needFaults = new Map<string, NeedFault>();

  get failures(): readonly Failure[] {
    return [...this.#failures.values()];
  }

  /** Every need that was not met, by a key that tells need and pass, in the order they are played. */
  get needFaults(): ReadonlyMap<string, NeedFault> {
    return this.#needFaults;
  }

  /** The pedal was moved, or a note was served: what goes wrong next goes wrong for another reason. */
  close(letter: Letter): void {
    this.#open.delete(letter);
  }

  fail(need: Need, pass: number, wrong: WrongPosition): void {
    const { letter, position } = need;
    const fault = this.note(need, pass, wrong);
    const open = this.#open.get(letter);
    if (open !== undefined && open.wanted === position && open.whileHeld === wrong.whileHeld) {
      if (!open.needs.includes(need)) open.needs.push(need);
      open.faults.push(fault);
      return;
    }
    const key = [letter, position, need.note.id, wrong.whileHeld, wrong.marking, wrong.landedIn].join(' ');
    const failure = this.#failures.get(key) ?? {
      ...wrong,
      letter,
      wanted: position,
      needs: [need],
      passes: [],
      faults: [],
    };
    failure.passes.push(pass);
    failure.faults.push(fault);
    this.#failures.set(key, failure);
    this.#open.set(letter, failure);
  }

  /** @returns the key of the fault */
  note(
    need: Need,
    pass: number,
    { stands, landedIn, whileHeld }: Omit<WrongPosition, 'marking' | 'stands'> & Pick<NeedFault, 'stands'>,
    isFault = true,
  ): string {
    const { note, letter, octave, position, kind } = need;
    const key = `${note.id} ${letter}${octave} ${position} ${kind} ${pass}${whileHeld ? ' held' : ''}`;
    if (!this.#needFaults.has(key)) this.#needFaults.set(key, { need, pass, landedIn, stands, isFault });
    return key;
  }
}
