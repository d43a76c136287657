import type { BarRepeat } from '../model/bar.ts';

/** A passage played several times: bar indices, all inclusive. */
export interface Repeat {
  readonly start: number;
  readonly last: number;
  /** Times the passage is played in all. */
  readonly times: number;
  /** Bars whose end sends play back to `start` while passes are left. */
  readonly backs: readonly number[];
  readonly endings: readonly Ending[];
}

/** A bracket over bars that are played only on the passes it names. */
export interface Ending {
  readonly numbers: readonly number[];
  readonly first: number;
  readonly last: number;
}

/** A sign that does not make sense, at a bar index. */
export interface RepeatSignFault {
  readonly bar: number;
  readonly why: string;
}

/** `faults` leave the order of play open; `ignoredSigns` can be passed over. */
export interface RepeatStructure {
  /** In the order in which they close: the repeats inside another stand right before it. */
  readonly repeats: readonly Repeat[];
  readonly faults: readonly RepeatSignFault[];
  readonly ignoredSigns: readonly RepeatSignFault[];
}

interface OpenGroup {
  readonly start: number;
  readonly endings: { numbers: readonly number[]; first: number; last: number }[];
  readonly backs: number[];
}

/** Pairs the signs of repeats and gathers the endings that share one start; linear in the number of bars. */
export const findRepeats = (bars: readonly { readonly repeat: BarRepeat }[]): RepeatStructure => {
  const pairing = new SignPairing(bars);
  for (let bar = 0; bar < bars.length; bar += 1) pairing.readBar(bar);
  return pairing.finish();
};

/** The state of one walk over the bars: open starts, and the group of endings under way. */
class SignPairing {
  readonly #bars: readonly { readonly repeat: BarRepeat }[];
  readonly #starts: number[] = [];
  readonly #repeats: Repeat[] = [];
  readonly #faults: RepeatSignFault[] = [];
  #group: OpenGroup | null = null;
  /** Where a repeat without a start of its own goes back to. */
  #impliedStart = 0;
  /** The bracket that a new start has ended early: its further bars belong to the new passage. */
  #closedBracket: string | null = null;

  constructor(bars: readonly { readonly repeat: BarRepeat }[]) {
    this.#bars = bars;
  }

  readBar(bar: number): void {
    const { start, endTimes, endings } = this.#bars[bar]!.repeat;
    const bracket = endings.join();
    if (bracket !== this.#closedBracket) this.#closedBracket = null;
    if (endings.length === 0) this.#closeGroup();
    if (start && this.#group !== null) {
      this.#readEnding(bar, endings);
      this.#closeGroup();
      this.#closedBracket = bracket;
    }
    if (start) this.#starts.push(bar);
    if (endings.length > 0 && this.#closedBracket === null) {
      this.#readEnding(bar, endings);
      if (endTimes > 0) this.#group!.backs.push(bar);
    } else if (endTimes > 0) {
      const from = this.#starts.pop() ?? this.#impliedStart;
      this.#repeats.push({ start: from, last: bar, times: endTimes, backs: [bar], endings: [] });
      this.#impliedStart = bar + 1;
    }
  }

  finish(): RepeatStructure {
    this.#closeGroup();
    const ignoredSigns = this.#starts.map((bar) => ({ bar, why: 'a repeat starts here but never ends' }));
    return { repeats: this.#repeats, faults: this.#faults, ignoredSigns };
  }

  #readEnding(bar: number, numbers: readonly number[]): void {
    this.#group ??= { start: this.#starts.pop() ?? this.#impliedStart, endings: [], backs: [] };
    const { endings, backs } = this.#group;
    const current = endings.at(-1);
    const goesOn = current?.numbers.join() === numbers.join() && !backs.includes(current.last);
    if (current !== undefined && goesOn) current.last = bar;
    else endings.push({ numbers, first: bar, last: bar });
  }

  #closeGroup(): void {
    const group = this.#group;
    this.#group = null;
    if (group === null) return;
    const { start, endings, backs } = group;
    const fault = this.#faultOf(group);
    if (fault !== null) this.#faults.push({ bar: endings[0]!.first, why: fault });
    const highest = endings
      .flatMap((ending) => ending.numbers)
      .reduce((most, each) => Math.max(most, each), 1);
    const times = endings.length === 1 && backs.length > 0 ? highest + 1 : highest;
    this.#repeats.push({ start, last: endings.at(-1)!.last, times, backs, endings });
    this.#impliedStart = (backs.at(-1) ?? endings.at(-1)!.last) + 1;
  }

  /** Endings must name every pass once, from the first on, and each but the last must lead back or away. */
  #faultOf({ endings, backs }: OpenGroup): string | null {
    const numbers = endings.flatMap((ending) => ending.numbers).toSorted((a, b) => a - b);
    if (numbers.some((number, index) => number !== index + 1) || !endings[0]!.numbers.includes(1)) {
      return `the endings are not numbered 1, 2, 3 and so on, but ${endings.flatMap((ending) => ending.numbers).join(', ')}`;
    }
    const highest = numbers.length;
    const stuck = endings.find(
      ({ numbers: passes, first, last }) =>
        (endings.length === 1 || !passes.includes(highest)) &&
        !backs.some((back) => back >= first && back <= last) &&
        !this.#leadsAway(first, last),
    );
    return stuck === undefined ? null : `ending ${stuck.numbers.join(', ')} does not lead back to a repeat`;
  }

  #leadsAway(first: number, last: number): boolean {
    return this.#bars
      .slice(first, last + 1)
      .some((bar) => bar.repeat.jumps.some((jump) => jump.kind === 'da-capo' || jump.kind === 'dal-segno'));
  }
}
