import { type Rational, rational } from '../../../music/rational.ts';
import type { Losses } from '../losses.ts';
import type { ParsedBarLine, ParsedKey, ParsedMeter } from '../parsed-tune.ts';
import type { BarMark, Clef, TuneEvent, TuneKey, TuneMeter, TuneSpan } from '../tune.ts';
import { isPrintedWhole, isSameClef, isSameKey, readClef, readKey, readMeter } from './keys.ts';
import { readSigns } from './note-signs.ts';
import { OpenSpans } from './open-spans.ts';
import { joinTies } from './tie-notes.ts';
import type { BarItem, VoiceBars } from './voice-bars.ts';
import { type BarEvents, VoiceReader } from './voice-events.ts';
import { type AccidentalReach, VoicePitches } from './voice-pitches.ts';
import { readQuoted, readTempo } from './words.ts';

/** One bar of a voice as it is read; changes of key, meter and clef are those at its start. */
export interface ReadBar {
  readonly key: TuneKey | null;
  /** `none` where the music stops being measured. */
  readonly meter: TuneMeter | 'none' | null;
  readonly clef: Clef | null;
  readonly newLine: boolean;
  readonly events: readonly TuneEvent[];
  readonly marks: readonly BarMark[];
  readonly length: Rational;
  readonly opening: readonly ParsedBarLine[];
  readonly closing: readonly ParsedBarLine[];
}

export interface ReadVoice {
  /** From 1. */
  readonly staff: number;
  readonly voice: number;
  readonly bars: readonly ReadBar[];
  readonly spans: readonly TuneSpan[];
}

const FOUR_FOUR: Rational = rational(4);

type DraftBar = Omit<ReadBar, 'events'> & Pick<BarEvents, 'events'>;

/** Reads one voice from its first bar to its last. */
export const readVoice = (
  { staff, voice, bars }: VoiceBars,
  reach: AccidentalReach,
  losses: Losses,
): ReadVoice => {
  const spans = new OpenSpans(losses);
  const reader = new BarReader(`s${staff + 1}v${voice + 1}`, reach, spans, losses);
  const drafts = bars.map((bar) => ({
    ...reader.read(bar.items, bar.closing),
    opening: bar.opening,
    closing: bar.closing,
  }));
  reader.finish();
  const events = joinTies(
    drafts.map((each) => each.events),
    losses,
  );
  if (reader.meetsOtherOctave)
    losses.inLine(
      'Accidentals hold in their own octave; if they are meant for all octaves, write %%propagate-accidentals pitch',
      null,
    );
  return {
    staff: staff + 1,
    voice: voice + 1,
    bars: drafts.map((bar, index) => ({ ...bar, events: events[index]! })),
    spans: spans.finish(),
  };
};

/** What stands at the start of the staff. */
interface Printed {
  readonly key: TuneKey | null;
  readonly meter: TuneMeter | null;
  readonly clef: Clef | null;
}

const isSameMeter = (a: TuneMeter | null, b: TuneMeter | null): boolean =>
  a === b || (a !== null && b !== null && a.count === b.count && a.unit === b.unit && a.symbol === b.symbol);

/** What holds from bar to bar. */
class BarReader {
  readonly #losses: Losses;
  readonly #pitches: VoicePitches;
  readonly #events: VoiceReader;
  #key: TuneKey | null = null;
  #meter: TuneMeter | null = null;
  #printed: Printed = { key: null, meter: null, clef: null };
  #clef: Clef | null = null;

  constructor(name: string, reach: AccidentalReach, spans: OpenSpans, losses: Losses) {
    this.#losses = losses;
    this.#pitches = new VoicePitches(reach);
    this.#events = new VoiceReader({ name, pitches: this.#pitches, spans, losses });
  }

  get meetsOtherOctave(): boolean {
    return this.#pitches.meetsOtherOctave;
  }

  finish(): void {
    this.#events.finish();
  }

  read(items: readonly BarItem[], closing: readonly ParsedBarLine[]): Omit<DraftBar, 'opening' | 'closing'> {
    const heads = items.slice(
      0,
      items.findIndex((item) => item.el_type === 'note'),
    );
    for (const item of heads) this.#readHead(item);
    const changes = this.#takeChanges();
    this.#pitches.startBar(changes.key);
    for (const item of items) this.#readItem(item, heads.includes(item));
    for (const line of closing) this.#readLineSigns(line);
    return { ...changes, newLine: items.some(({ el_type }) => el_type === 'line'), ...this.#events.endBar() };
  }

  /** What is to be printed at the start of a bar since it has changed. */
  #takeChanges(): Pick<ReadBar, 'key' | 'meter' | 'clef'> {
    const now = { key: this.#key, meter: this.#meter, clef: this.#clef };
    const { key, meter, clef } = this.#printed;
    this.#printed = now;
    return {
      key: now.key === null || (key !== null && isSameKey(now.key, key)) ? null : now.key,
      meter: isSameMeter(now.meter, meter) ? null : (now.meter ?? 'none'),
      clef: now.clef === null || (clef !== null && isSameClef(now.clef, clef)) ? null : now.clef,
    };
  }

  /** Keys, meters and clefs before the first note. */
  #readHead(item: BarItem): void {
    if (item.el_type === 'line') {
      this.#changeKey(item.key, undefined);
      this.#changeClef(item.clef.type);
      if (item.meter !== undefined) this.#changeMeter(item.meter, undefined);
    }
    if (item.el_type === 'key') this.#changeKey(item, item.startChar);
    if (item.el_type === 'meter') this.#changeMeter(item, item.startChar);
    if (item.el_type === 'clef') this.#changeClef(item.type);
  }

  #readItem(item: BarItem, isHead: boolean): void {
    switch (item.el_type) {
      case 'note':
        this.#events.read(item, this.#meter?.length ?? FOUR_FOUR);
        break;
      case 'part':
        this.#events.mark({ at: this.#events.onset, kind: 'part', text: item.title.trim() });
        break;
      case 'tempo': {
        const tempo = readTempo(item);
        if (tempo !== null) this.#events.mark({ at: this.#events.onset, ...tempo });
        break;
      }
      case 'key':
      case 'meter':
      case 'clef':
      case 'line':
        if (!isHead) this.#readLateHead(item);
    }
  }

  /** Within a bar a key holds at once, with accidentals at its notes; its signature, a meter and a clef follow at the next bar. */
  #readLateHead(item: Extract<BarItem, { el_type: 'key' | 'meter' | 'clef' | 'line' }>): void {
    if (item.el_type === 'key')
      this.#losses.at('A key signature within a bar is printed at the next bar', item.startChar);
    this.#readHead(item);
  }

  #changeKey(parsed: ParsedKey, startChar: number | undefined): void {
    const key = readKey(parsed);
    if (this.#key !== null && isSameKey(key, this.#key)) return;
    this.#key = key;
    this.#pitches.changeKey(key);
    if (!isPrintedWhole(key))
      this.#losses.at('A key signature of its own kind is printed as accidentals at the notes', startChar);
  }

  #changeMeter(parsed: ParsedMeter, startChar: number | undefined): void {
    this.#meter = readMeter(parsed);
    if (this.#meter === null && parsed.type === 'specified')
      this.#losses.at('A time signature that cannot be printed is left out', startChar);
  }

  #changeClef(type: string): void {
    const clef = readClef(type);
    if (this.#clef !== null && isSameClef(clef, this.#clef)) return;
    this.#clef = clef;
    this.#pitches.changeClef(clef.octaves);
  }

  #readLineSigns(line: ParsedBarLine): void {
    const at = this.#events.onset;
    const { startChar } = line;
    const { signs, jumps } = readSigns(
      {
        decoration: line.decoration?.filter((name) => name !== 'staccato') ?? [],
        ...(startChar === undefined ? {} : { startChar }),
      },
      this.#losses,
    );
    const words = readQuoted(line.chord);
    for (const mark of [...jumps, ...words.jumps]) this.#events.mark({ at, kind: 'jump', ...mark });
    for (const text of [...words.texts.map((each) => each.text), ...words.chordSymbols])
      this.#events.mark({ at, kind: 'text', text });
    if (signs.length > 0) this.#losses.at('Signs at a bar line are left out', startChar);
  }
}
