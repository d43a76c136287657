import { compare, equals, type Rational, toNumber, ZERO } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import { assumedTempo } from '../../bars/clock.ts';
import type { Meter } from '../../model/bar.ts';
import type { TempoMark } from '../../model/tempo.ts';
import type { Landmark } from '../../model/texts.ts';
import { isOwnElement } from '../../own-marks.ts';
import { tempoInWords } from '../../texts/metronome-words.ts';
import type { BarDraft, Control } from '../draft.ts';
import type { ReadLog } from '../log.ts';
import { noteValue, withDots } from '../notes/durations.ts';
import { wordsOf } from '../text.ts';
import { readDecimal, readInteger } from '../values.ts';
import type { MarkTimes } from './mark-times.ts';

export interface TempoReading {
  readonly tempo: readonly TempoMark[];
  readonly landmarks: readonly Landmark[];
}

const NAMES: ReadonlySet<string> = new Set(['reh', 'scoreDef', 'tempo']);

/** Tempo marks and rehearsal marks of all staves; the same mark at several staves counts once. */
export const readTempo = (
  controls: readonly Control[],
  bars: readonly BarDraft[],
  times: MarkTimes,
  source: string,
  log: ReadLog,
): TempoReading => {
  const marks: TempoMark[] = [];
  const landmarks = new Map<string, Landmark>();
  for (const control of controls) {
    const { element } = control;
    if (!NAMES.has(element.name) || isOwnElement(element)) continue;
    const bar = bars[control.bar];
    const start = times.startOf(control);
    const at = start?.onset ?? bar?.onset;
    if (at === undefined) continue;
    const inWords = tempoOfWords(element, source, at);
    const mark = readTempoMark(element, at, bar, inWords !== null, log) ?? inWords;
    if (mark !== null) marks.push(mark);
    if (element.name === 'scoreDef') continue;
    if (start === null && mark !== null)
      log.skip('the place of a tempo within its bar', bar === undefined ? null : control.bar);
    const words = wordsOf(element, source);
    const kind = element.name === 'reh' ? 'rehearsal' : 'tempo';
    const text = kind === 'tempo' ? withoutMetronome(words) : words;
    if (text !== '')
      landmarks.set(`${at.num}/${at.den} ${kind} ${text}`, {
        at,
        bar: start?.bar ?? control.bar,
        kind,
        text,
      });
  }
  return {
    tempo: withStart(marks, bars[0]?.meter, log),
    landmarks: [...landmarks.values()].sort((a, b) => compare(a.at, b.at)),
  };
};

/** Longer words are no tempo mark. */
const LONGEST_MARK = 200;

/** The words of a tempo mark without a metronome equation at their end, such as `(♩ = 60)`. */
const withoutMetronome = (words: string): string =>
  words.length > LONGEST_MARK ? words : words.replace(/\s*\(?[^()=\p{L}]*=\s*[\d.,\s–-]+\)?$/u, '').trim();

/** The last mark at a time holds; where none stands at the start, one is assumed. */
const withStart = (
  marks: readonly TempoMark[],
  meter: Meter | undefined,
  log: ReadLog,
): readonly TempoMark[] => {
  const sorted = marks.toSorted((a, b) => compare(a.at, b.at));
  const kept = sorted.filter((mark, index) => {
    const next = sorted[index + 1];
    return next === undefined || !equals(mark.at, next.at);
  });
  if (kept[0] !== undefined && equals(kept[0].at, ZERO)) return kept;
  const until = kept.length === 0 ? 'The score gives no tempo' : 'The score gives no tempo at the start';
  const { quartersPerMinute, inWords } = assumedTempo(meter);
  log.remark('tempo-assumed', null, `${until}: ${inWords} are assumed.`);
  return [{ at: ZERO, quartersPerMinute, origin: 'assumed' }, ...kept];
};

/** What a mark says in words alone: “Allegro animato ♩ = 116”. */
const tempoOfWords = (element: XmlElement, source: string, at: Rational): TempoMark | null => {
  const stated = element.name === 'tempo' ? tempoInWords(wordsOf(element, source)) : null;
  return stated === null ? null : { at, quartersPerMinute: stated, origin: 'metronome' };
};

/**
 * `midi.bpm` counts quarter notes a minute, `midi.mspb` microseconds a quarter note; `mm` counts units of `mm.unit`,
 * by default the meter's (MEI 5.1, att.midiTempo and att.mmTempo; `midi.tempo` is the spelling of MEI 3).
 */
const readTempoMark = (
  element: XmlElement,
  at: Rational,
  bar: BarDraft | undefined,
  isInWords: boolean,
  log: ReadLog,
): TempoMark | null => {
  const perQuarter = readDecimal(element, 'midi.mspb', [10_000, 60_000_000], log);
  const played =
    readDecimal(element, 'midi.bpm', [1, 2000], log) ??
    readDecimal(element, 'midi.tempo', [1, 2000], log) ??
    (perQuarter === undefined ? undefined : 60_000_000 / perQuarter);
  if (played !== undefined) {
    const isPrinted = isInWords || element.attributes.mm !== undefined;
    return { at, quartersPerMinute: played, origin: isPrinted ? 'metronome' : 'sound' };
  }
  const beats = readDecimal(element, 'mm', [1, 2000], log);
  if (beats === undefined) return null;
  const unitText = element.attributes['mm.unit']?.trim() ?? `${bar?.meter.beatUnit ?? 4}`;
  const unit = noteValue(unitText);
  if (unit === undefined) log.badValue('metronome unit', unitText, element);
  const dots = readInteger(element, 'mm.dots', [0, 4], log) ?? 0;
  return unit === undefined
    ? null
    : { at, quartersPerMinute: beats * toNumber(withDots(unit, dots)), origin: 'metronome' };
};
