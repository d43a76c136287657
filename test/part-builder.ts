import { isLetter, type Pitch } from '../engine/music/pitch.ts';
import { add, multiply, type Rational, rational, ZERO } from '../engine/music/rational.ts';
import type { Bar } from '../engine/score/model/bar.ts';
import type { Sweep } from '../engine/score/model/between-notes.ts';
import type { Note } from '../engine/score/model/note.ts';
import type { Score } from '../engine/score/model/score.ts';

/** A small part written as note names, for tests. Bars are parted by `|`; see `readToken` for the notes. */
export interface SmallPart {
  readonly upper: string;
  readonly lower?: string;
  /** Of the whole part, or bar by bar. */
  readonly keyFifths?: number | readonly number[];
  readonly quartersPerMinute?: number;
  readonly meter?: { readonly beats: number; readonly beatUnit: number };
  readonly playOrder?: readonly number[];
}

const NO_REPEAT: Bar['repeat'] = { start: false, endTimes: 0, endings: [], jumps: [] };

/** @example smallPart({ upper: 'C4/1 C#4/1 r/2 | D4+F4/4', lower: 'C2/4 | r/4' }) */
export const smallPart = (part: SmallPart): Score => {
  const meter = part.meter ?? { beats: 4, beatUnit: 4 };
  const barLength = rational(meter.beats * 4, meter.beatUnit);
  const staves = [part.upper, part.lower ?? ''].map((text) => text.split('|').map((bar) => bar.trim()));
  const barCount = staves[0]!.length;
  const bars: Bar[] = Array.from({ length: barCount }, (_, index) => ({
    index,
    number: `${index + 1}`,
    id: `b${index}`,
    span: { start: 0, end: 0 },
    onset: multiply(barLength, rational(index)),
    duration: barLength,
    meter,
    keyFifths: typeof part.keyFifths === 'object' ? part.keyFifths[index]! : (part.keyFifths ?? 0),
    repeat: NO_REPEAT,
  }));
  const notes: Note[] = [];
  const sweeps: Sweep[] = [];
  staves.forEach((texts, staff) => {
    texts.forEach((text, bar) => {
      if (bars[bar] !== undefined) readBar(text, bars[bar], staff + 1, notes, sweeps);
    });
  });
  const root = {
    name: 'score-partwise',
    attributes: {},
    children: [],
    text: '',
    span: { start: 0, end: 0 },
    inner: { start: 0, end: 0 },
  };
  return {
    source: {
      format: 'musicxml-partwise',
      version: '4.0',
      text: '',
      root,
      encoding: 'utf-8',
      archivePath: null,
      movement: null,
    },
    titles: { title: 'Test', subtitle: '', composer: '', arranger: '', rights: '' },
    parts: [],
    harp: { partIds: ['P1'], name: 'Harp', players: 1, staves: 2, meiStaves: [] },
    harps: [{ id: 'P1', name: 'Harp' }],
    bars,
    notes: notes.sort((a, b) => a.onset.num * b.onset.den - b.onset.num * a.onset.den),
    keyMode: null,
    rests: [],
    sweeps,
    phrases: [],
    damps: [],
    tempo: [{ at: ZERO, quartersPerMinute: part.quartersPerMinute ?? 60, origin: 'sound' }],
    landmarks: [],
    texts: [],
    movements: [],
    pauses: [],
    sharing: [],
    share: null,
    isTune: false,
    slowed: [],
    delayed: [],
    markings: [],
    unreadWords: [],
    leverWords: [],
    smallDiamonds: [],
    playOrder: part.playOrder ?? bars.map((bar) => bar.index),
    remarks: [],
  };
};

const readBar = (text: string, bar: Bar, staff: number, notes: Note[], sweeps: Sweep[]): void => {
  let at: Rational = bar.onset;
  let graceOrder = 0;
  let sweepFrom: Note | null = null;
  let sweepKind: Sweep['kind'] = 'glissando';
  for (const token of text.split(/\s+/).filter((each) => each !== '')) {
    const { pitches, duration, grace, trill, tied, sweep, harmonic, broken } = readToken(token);
    const chord = `n${notes.length}`;
    for (const pitch of pitches) {
      const note = noteOf(pitch, at, duration, bar, staff, `n${notes.length}`, chord);
      const upper = trill === null ? null : { kind: 'trill' as const, upper: trill, lower: null };
      const tiedFrom = tied
        ? (notes.findLast(
            (each) =>
              each.staff === staff &&
              each.pitch.letter === pitch.letter &&
              each.pitch.octave === pitch.octave,
          )?.id ?? null)
        : null;
      notes.push({
        ...note,
        ...(harmonic ? harmonicOn(pitch) : {}),
        ornament: upper,
        tiedFrom,
        arpeggio: broken ? 'plain' : null,
        grace: grace ? { order: graceOrder, slashed: false } : null,
      });
    }
    const last = notes.at(-1)!;
    if (sweepFrom !== null && pitches.length > 0) {
      const ends = { from: sweepFrom.id, to: last.id, start: sweepFrom.onset, end: last.onset };
      sweeps.push({ kind: sweepKind, ...ends, bar: sweepFrom.bar, words: null });
      sweepFrom = null;
    }
    if (sweep !== null) {
      sweepFrom = last;
      sweepKind = sweep;
    }
    graceOrder = grace ? graceOrder + 1 : 0;
    if (!grace) at = add(at, duration);
  }
};

const harmonicOn = (string: Pitch): Pick<Note, 'pitch' | 'harmonic'> => ({
  pitch: { ...string, octave: string.octave + 1 },
  harmonic: { string, notated: 'base-pitch', assumed: false },
});

/**
 * `C#4+E4/1` is a chord of one quarter note, `r/2` a rest, `(F#4)` a grace note, `Bb4/2tr(C5)` a trill with its
 * neighbour, `~C4/1` tied from the note before, `C4/1>` the start of a glissando to the next note, `C4/1)` of a slide, `C4/1o` a harmonic
 * plucked on the string C4, `C4+E5/1{` a broken chord.
 */
const readToken = (token: string) => {
  const grace = /^\((.+)\)$/.exec(token);
  const trill = /tr\((.+)\)$/.exec(token);
  const body = (grace?.[1] ?? token).replace(/tr\(.+\)$/, '').replace(/^~|[>)o{]$/g, '');
  const [names = '', length = '1'] = body.split('/');
  const [num = '1', den = '1'] = length.split(':');
  return {
    pitches: names === 'r' ? [] : names.split('+').map(readPitch),
    duration: grace === null ? rational(Number(num), Number(den)) : ZERO,
    grace: grace !== null,
    trill: trill === null ? null : readPitch(trill[1]!),
    tied: token.startsWith('~'),
    sweep: token.endsWith('>')
      ? ('glissando' as const)
      : grace === null && token.endsWith(')') && trill === null
        ? ('slide' as const)
        : null,
    harmonic: token.endsWith('o'),
    broken: token.endsWith('{'),
  };
};

/** `q` is a quarter-tone sharp. */
const ALTERS: Readonly<Record<string, number>> = { '': 0, '#': 1, b: -1, '##': 2, bb: -2, q: 0.5 };

export const readPitch = (name: string): Pitch => {
  const match = /^([A-G])(##|#|bb|b|q)?(\d)$/.exec(name);
  if (match === null || !isLetter(match[1]!)) throw new Error(`no note name: ${name}`);
  return { letter: match[1], alter: ALTERS[match[2] ?? '']!, octave: Number(match[3]) };
};

const noteOf = (
  pitch: Pitch,
  onset: Rational,
  duration: Rational,
  bar: Bar,
  staff: number,
  id: string,
  chord: string,
): Note => ({
  id,
  span: { start: 0, end: 0 },
  bar: bar.index,
  staff,
  voice: '1',
  onset,
  duration,
  pitch,
  chord,
  grace: null,
  tiedFrom: null,
  role: 'played',
  ornament: null,
  tremolo: null,
  harmonic: null,
  arpeggio: null,
  letRing: false,
  stem: null,
  beam: null,
  hand: null,
});
