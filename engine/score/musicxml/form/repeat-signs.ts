import { compare, type Rational } from '../../../music/rational.ts';
import { childrenNamed, firstChild, type XmlElement } from '../../../xml/tree.ts';
import type { BarRepeat, Jump } from '../../model/bar.ts';
import type { RemarkList } from '../remark-list.ts';
import { BadValue } from '../values.ts';
import type { BarItem } from '../walk-bar.ts';
import { readJumps } from './jumps.ts';

/** A jump sign and its time in the bar; `atEnd` where it stands on the bar line at the end. */
interface PlacedJump {
  readonly at: Rational;
  readonly atEnd: boolean;
  readonly jump: Jump;
}

interface BarRecord {
  start: boolean;
  endTimes: number;
  endings: readonly number[];
  readonly jumps: PlacedJump[];
}

/**
 * Gathers the signs of repetition of all parts. Parts repeat each other's signs: starts and ends are united, and the
 * endings of the first part that has any count.
 */
export class RepeatSigns {
  readonly #bars: BarRecord[];
  readonly #remarks: RemarkList;
  #hasEndings = false;
  #open: readonly number[] = [];
  /** Where an ending begins whose start says no number: its stop may say it. */
  #unnumbered: { readonly bar: number; readonly startsAt: number } | null = null;
  #sawEnding = false;

  constructor(bars: number, remarks: RemarkList) {
    this.#bars = Array.from({ length: bars }, () => ({ start: false, endTimes: 0, endings: [], jumps: [] }));
    this.#remarks = remarks;
  }

  startPart(): void {
    this.#closeUnnumbered();
    this.#hasEndings ||= this.#sawEnding;
    this.#open = [];
  }

  /** To be called for each bar of a part, before its signs are read. */
  startBar(bar: number): void {
    if (this.#open.length > 0) this.#setEndings(bar, this.#open);
  }

  /** Reads a bar line, a direction or a lone `sound`. */
  readItem({ element, at }: BarItem, bar: number): void {
    if (element.name === 'barline') this.#readBarline(element, at, bar);
    if (element.name === 'sound' || element.name === 'direction') {
      const sound = element.name === 'sound' ? element : firstChild(element, 'sound');
      if (sound?.attributes['forward-repeat'] === 'yes') this.#markStart(at.num === 0 ? bar : bar + 1);
    }
    const atEnd = element.name === 'barline' && isAtEnd(element, at);
    for (const jump of readJumps(element)) this.#bars[bar]?.jumps.push({ at, atEnd, jump });
  }

  /**
   * @param lengths of the bars: a segno or coda at the end of a bar belongs to the next one
   */
  finish(lengths: readonly Rational[]): readonly BarRepeat[] {
    this.#closeUnnumbered();
    const jumps = this.#bars.map(() => new Map<string, Jump>());
    for (const [bar, record] of this.#bars.entries()) {
      for (const { at, atEnd, jump } of record.jumps) {
        const isTarget = jump.kind === 'segno' || jump.kind === 'coda';
        const isLate = atEnd || (at.num > 0 && compare(at, lengths[bar]!) >= 0);
        const key = `${jump.kind} ${'label' in jump ? jump.label : ''}`;
        jumps[isTarget && isLate ? bar + 1 : bar]?.set(key, jump);
      }
    }
    return this.#bars.map(({ start, endTimes, endings }, bar) => ({
      start,
      endTimes,
      endings,
      jumps: [...jumps[bar]!.values()],
    }));
  }

  #readBarline(barline: XmlElement, at: Rational, bar: number): void {
    if (barline.attributes.location === 'middle' && firstChild(barline, 'repeat') !== undefined) {
      this.#remarks.add('repeat-ill-formed', bar, 'A repeat sign inside a bar is ignored');
      return;
    }
    const atEnd = isAtEnd(barline, at);
    for (const ending of childrenNamed(barline, 'ending')) this.#readEnding(ending, bar, atEnd);
    const repeat = firstChild(barline, 'repeat');
    const direction = repeat?.attributes.direction;
    if (repeat === undefined) return;
    if (repeat.attributes['after-jump'] === 'yes') {
      this.#remarks.skip('A repeat marked to be played again after a jump is played only before it', bar);
    }
    if (direction === 'forward') this.#markStart(atEnd ? bar + 1 : bar);
    if (direction === 'backward') {
      const record = this.#bars[atEnd ? bar : bar - 1];
      if (record !== undefined) record.endTimes = Math.max(record.endTimes, timesOf(repeat));
    }
  }

  #markStart(bar: number): void {
    const record = this.#bars[bar];
    if (record !== undefined) record.start = true;
  }

  #readEnding(ending: XmlElement, bar: number, atEnd: boolean): void {
    const numbers = endingNumbers(ending);
    if (ending.attributes.type === 'start') {
      this.#closeUnnumbered();
      this.#open = numbers;
      if (numbers.length === 0) this.#unnumbered = { bar: atEnd ? bar + 1 : bar, startsAt: bar };
      else if (!atEnd) this.#setEndings(bar, numbers);
      return;
    }
    this.#open = [];
    if (this.#unnumbered === null || numbers.length === 0) return;
    for (let each = this.#unnumbered.bar; each <= (atEnd ? bar : bar - 1); each += 1)
      this.#setEndings(each, numbers);
    this.#unnumbered = null;
  }

  /** An ending that neither its start nor its stop numbers. */
  #closeUnnumbered(): void {
    if (this.#unnumbered !== null)
      this.#remarks.skip('An ending without a number is ignored', this.#unnumbered.startsAt);
    this.#unnumbered = null;
  }

  #setEndings(bar: number, numbers: readonly number[]): void {
    this.#sawEnding = true;
    const record = this.#bars[bar];
    if (record !== undefined && !this.#hasEndings) record.endings = numbers;
  }
}

/** Bar lines are on the right unless they say otherwise; without a word, one before all notes is on the left. */
const isAtEnd = (barline: XmlElement, at: Rational): boolean => {
  const { location } = barline.attributes;
  if (location !== undefined) return location !== 'left';
  return at.num > 0 || firstChild(barline, 'repeat')?.attributes.direction === 'backward';
};

const MOST_TIMES = 1000;

const timesOf = (repeat: XmlElement): number => {
  const { times } = repeat.attributes;
  if (times === undefined) return 2;
  const value = Number(times);
  if (times.trim() === '' || !Number.isInteger(value) || value < 1 || value > MOST_TIMES) {
    throw new BadValue(repeat, 'number of times', times);
  }
  return value;
};

const MOST_ENDINGS = 99;

/** `1, 2` as MusicXML has it; also `1.2.` and `1-3`. The printed text serves where the number is blank. */
const endingNumbers = (ending: XmlElement): readonly number[] => {
  const text = (ending.attributes.number ?? '').trim() || ending.text;
  const numbers = new Set<number>();
  for (const [, from, to] of text.matchAll(/(\d{1,3})(?:\s*[-–]\s*(\d{1,3}))?/gu)) {
    const last = Math.min(Number(to ?? from), MOST_ENDINGS);
    for (let number = Math.max(1, Number(from)); number <= last; number += 1) numbers.add(number);
  }
  return [...numbers];
};
