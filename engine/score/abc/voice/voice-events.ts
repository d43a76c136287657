import { isSamePitch, type Pitch, stepOf } from '../../../music/pitch.ts';
import { add, multiply, type Rational, rational, ZERO } from '../../../music/rational.ts';
import { readAbcText } from '../book/abc-text.ts';
import type { Losses } from '../losses.ts';
import type { ParsedEvent } from '../parsed-tune.ts';
import type { BarMark, NoteValue, Syllable, TuneGrace, TunePitch, Tuplet } from '../tune.ts';
import { exactLength, splitLength, valueLength } from './lengths.ts';
import { DIAMOND, readSigns } from './note-signs.ts';
import type { OpenSpans } from './open-spans.ts';
import type { DraftEvent } from './tie-notes.ts';
import type { VoicePitches } from './voice-pitches.ts';
import { readQuoted } from './words.ts';

/** A bar of one voice, read. */
export interface BarEvents {
  readonly events: readonly DraftEvent[];
  readonly marks: readonly BarMark[];
  readonly length: Rational;
}

/** An event without what hangs on it. */
interface Shape {
  readonly kind: DraftEvent['kind'];
  readonly length: Rational;
  readonly value: NoteValue;
  readonly tuplet: Tuplet | null;
  /** Of the tied notes of one length: whether it is the first and the last. */
  readonly isFirst: boolean;
  readonly isLast: boolean;
}

/** What is needed to read a voice. */
export interface VoiceContext {
  /** Makes the ids of its events. */
  readonly name: string;
  readonly pitches: VoicePitches;
  readonly spans: OpenSpans;
  readonly losses: Losses;
}

/** Reads the events of one voice from bar to bar: what reaches over bar lines is remembered here. */
export class VoiceReader {
  readonly #context: VoiceContext;
  #tied: readonly Pitch[] = [];
  #tuplet: Tuplet | null = null;
  #beam: number | null = null;
  #beams = 0;
  #bar = 0;
  #onset = ZERO;
  #events: DraftEvent[] = [];
  #marks: BarMark[] = [];
  /** Diamonds without a length, which stand before the next note. */
  #diamonds: TuneGrace[] = [];
  #diamondAt: number | undefined;

  constructor(context: VoiceContext) {
    this.#context = context;
  }

  /** The time since the bar began. */
  get onset(): Rational {
    return this.#onset;
  }

  mark(mark: BarMark): void {
    this.#marks.push(mark);
  }

  /** Tells what is left when the voice has ended. */
  finish(): void {
    if (this.#diamonds.length > 0)
      this.#context.losses.at('Diamonds without a length before no note are left out', this.#diamondAt);
  }

  endBar(): BarEvents {
    const bar = { events: this.#events, marks: this.#marks, length: this.#onset };
    this.#events = [];
    this.#marks = [];
    this.#onset = ZERO;
    this.#bar += 1;
    if (this.#tuplet !== null) this.#tuplet = { ...this.#tuplet };
    return bar;
  }

  /** @param barLength how long a rest of the whole bar lasts */
  read(event: ParsedEvent, barLength: Rational): void {
    if (event.startTriplet !== undefined) this.#tuplet = readTuplet(event);
    if (event.startBeam === true) {
      this.#beams += 1;
      this.#beam = this.#beams;
    }
    this.#readTimed(event, barLength);
    if (event.endBeam === true) this.#beam = null;
    if (event.endTriplet === true) this.#tuplet = null;
  }

  #readTimed(event: ParsedEvent, barLength: Rational): void {
    const { losses } = this.#context;
    const restType = event.rest?.type;
    if (restType === 'spacer') {
      if ((event.gracenotes ?? []).length > 0)
        losses.at('Grace notes before no note are left out', event.startChar);
      return;
    }
    if (restType === 'multimeasure' || restType === 'whole') {
      const value = { unit: 1, dots: 0 };
      this.#push(event, {
        kind: 'bar-rest',
        length: barLength,
        value,
        tuplet: null,
        isFirst: true,
        isLast: true,
      });
      return;
    }
    if (event.style === DIAMOND && event.duration === 0) {
      this.#diamonds.push(...this.#readDiamonds(event));
      this.#diamondAt = event.startChar;
      return;
    }
    const written = exactLength(event.duration);
    if (written === null || written.num === 0) {
      losses.at('Notes without a length that can be read are left out', event.startChar);
      return;
    }
    const kind = event.rest === undefined ? 'note' : restType === 'rest' ? 'rest' : 'space';
    const { values, odd } = splitLength(written);
    const tuplet = joinTuplets(this.#tuplet, odd);
    for (const [index, value] of values.entries()) {
      const length = tuplet === null ? valueLength(value) : multiply(valueLength(value), ratioOf(tuplet));
      const place = { isFirst: index === 0, isLast: index === values.length - 1 };
      this.#push(event, { kind, length, value, tuplet, ...place });
    }
  }

  #push(event: ParsedEvent, shape: Shape): void {
    const { name, losses, spans } = this.#context;
    const { isFirst, isLast, ...own } = shape;
    const id = `${name}b${this.#bar + 1}n${this.#events.length + 1}`;
    const diamonds = isFirst && shape.kind !== 'bar-rest' ? this.#takeDiamonds() : [];
    const graces = isFirst ? [...diamonds, ...this.#readGraces(event)] : [];
    const words = readQuoted(isFirst ? event.chord : undefined);
    const { signs, jumps } = isFirst ? readSigns(event, losses) : { signs: [], jumps: [] };
    for (const mark of [...jumps, ...words.jumps]) this.mark({ at: this.#onset, kind: 'jump', ...mark });
    spans.read(event, { id, bar: this.#bar }, { isFirst, isLast });
    this.#events.push({
      ...own,
      id,
      onset: this.#onset,
      pitches: shape.kind === 'note' ? this.#readPitches(event, isFirst, isLast) : [],
      graces,
      diamond: event.style === DIAMOND,
      beam: shape.value.unit >= 8 && shape.kind !== 'space' ? this.#beam : null,
      signs,
      chordSymbols: words.chordSymbols,
      texts: words.texts,
      lyrics: isFirst ? readLyrics(event) : [],
      startChar: event.startChar,
    });
    this.#onset = add(this.#onset, shape.length);
  }

  #readPitches(event: ParsedEvent, isFirst: boolean, isLast: boolean): readonly TunePitch[] {
    const before = this.#tied;
    const read = (event.pitches ?? []).flatMap((each): readonly TunePitch[] => {
      // What goes on from the first of several tied notes has its accidental from there.
      const { accidental: _stated, ...unmarked } = each;
      const resolved = this.#context.pitches.resolve(isFirst ? each : unmarked, before);
      if (resolved === null) {
        this.#context.losses.at('Notes beyond the octaves 0 to 9 are left out', event.startChar);
        return [];
      }
      return [{ ...resolved, tieStarts: !isLast || each.startTie !== undefined, tieEnds: false }];
    });
    // One head for one pitch, from the lowest.
    const heads = read
      .filter(({ pitch }, index) => read.findIndex((other) => isSamePitch(other.pitch, pitch)) === index)
      .toSorted((a, b) => stepOf(a.pitch) - stepOf(b.pitch) || a.pitch.alter - b.pitch.alter);
    this.#tied = heads.filter(({ tieStarts }) => tieStarts).map(({ pitch }) => pitch);
    return heads;
  }

  #readGraces(event: ParsedEvent): readonly TuneGrace[] {
    const slashed = event.gracenotes?.[0]?.acciaccatura === true;
    return (event.gracenotes ?? []).flatMap((grace): readonly TuneGrace[] => {
      const resolved = this.#context.pitches.resolve(grace, []);
      const length = exactLength(grace.duration);
      if (resolved === null || length === null || length.num === 0) return [];
      const value = splitLength(length).values[0]!;
      return [{ ...resolved, value: { unit: Math.max(8, value.unit), dots: 0 }, slashed, diamond: false }];
    });
  }

  #readDiamonds(event: ParsedEvent): readonly TuneGrace[] {
    return (event.pitches ?? []).flatMap((each): readonly TuneGrace[] => {
      const resolved = this.#context.pitches.resolve(each, []);
      return resolved === null
        ? []
        : [{ ...resolved, value: { unit: 4, dots: 0 }, slashed: true, diamond: true }];
    });
  }

  #takeDiamonds(): readonly TuneGrace[] {
    const taken = this.#diamonds;
    this.#diamonds = [];
    return taken;
  }
}

const readTuplet = ({ startTriplet, tripletMultiplier }: ParsedEvent): Tuplet | null => {
  const count = startTriplet ?? 0;
  const inTimeOf = Math.round(count * (tripletMultiplier ?? 0));
  return count >= 2 && count <= 64 && inTimeOf >= 1 && inTimeOf <= 64 ? { count, inTimeOf } : null;
};

const ratioOf = ({ count, inTimeOf }: Tuplet): Rational => rational(inTimeOf, count);

const joinTuplets = (group: Tuplet | null, odd: Tuplet | null): Tuplet | null => {
  if (group === null || odd === null) return group ?? odd;
  return { count: group.count * odd.count, inTimeOf: group.inTimeOf * odd.inTimeOf };
};

const readLyrics = ({ lyric }: ParsedEvent): readonly Syllable[] =>
  (lyric ?? []).map(({ syllable, divider }) => ({
    text: readAbcText(syllable),
    goesOn: divider === '-' ? 'hyphen' : divider === '_' ? 'line' : null,
  }));
