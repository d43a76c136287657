import type {
  ParsedBarLine,
  ParsedClef,
  ParsedElement,
  ParsedEvent,
  ParsedKey,
  ParsedLine,
  ParsedMeter,
} from '../parsed-tune.ts';

/** The start of a line of music, with what stands at its head. */
export interface LineStart {
  readonly el_type: 'line';
  readonly key: ParsedKey;
  readonly clef: ParsedClef;
  readonly meter: ParsedMeter | undefined;
}

/** What stands in a bar but its lines. */
export type BarItem = Exclude<ParsedElement, ParsedBarLine> | LineStart;

/** A bar of one voice, with the lines that close it; those before the first note are the first bar's `opening`. */
export interface VoiceBar {
  readonly items: readonly BarItem[];
  readonly opening: readonly ParsedBarLine[];
  readonly closing: readonly ParsedBarLine[];
}

export interface VoiceBars {
  /** From 0. */
  readonly staff: number;
  readonly voice: number;
  readonly bars: readonly VoiceBar[];
}

/** All voices of a tune, each as a row of bars, whatever lines the file writes them on. */
export const readVoiceBars = (lines: readonly ParsedLine[]): readonly VoiceBars[] => {
  const music = lines.flatMap(({ staff }) => (staff === undefined ? [] : [staff]));
  const staves = Math.max(0, ...music.map((line) => line.length));
  return Array.from({ length: staves }, (_, staff) => {
    const voices = Math.max(0, ...music.map((line) => line[staff]?.voices.length ?? 0));
    const streams = Array.from({ length: voices }, (_unused, voice) => joinLines(music, staff, voice));
    const long = longRests(streams[0] ?? []);
    return streams.map((stream, voice) => ({ staff, voice, bars: cutBars(stream, long) }));
  }).flat();
};

type StreamItem = ParsedElement | LineStart;

/** A voice that is silent for a line rests there as long as the first voice of the line plays. */
const joinLines = (
  music: readonly NonNullable<ParsedLine['staff']>[],
  staff: number,
  voice: number,
): readonly StreamItem[] =>
  music.flatMap((line): readonly StreamItem[] => {
    const own = line[staff];
    const elements = own?.voices[voice] ?? silenceOf(line[staff]?.voices[0] ?? line[0]?.voices[0] ?? []);
    if (own === undefined) return elements;
    return [{ el_type: 'line', key: own.key, clef: own.clef, meter: own.meter }, ...elements];
  });

const silenceOf = (elements: readonly ParsedElement[]): readonly ParsedElement[] =>
  elements.flatMap((each): readonly ParsedElement[] => {
    if (each.el_type === 'bar') return [{ el_type: 'bar', type: each.type }];
    if (each.el_type !== 'note') return [];
    const { duration, startChar } = each;
    const silence = { el_type: 'note', duration, rest: { type: 'invisible' } } as const;
    return [startChar === undefined ? silence : { ...silence, startChar }];
  });

const isLongRest = ({ rest }: ParsedEvent): boolean => rest?.type === 'multimeasure';

/** More bars of rest in a row than this are taken for an error. */
const MOST_BARS = 500;

/** Rests of several bars, by where they stand: other voices are silent there as one thing, too. */
const longRests = (stream: readonly StreamItem[]): ReadonlyMap<number, number> =>
  new Map(
    stream.flatMap((each): readonly [number, number][] =>
      each.el_type === 'note' && isLongRest(each) && each.startChar !== undefined
        ? [[each.startChar, Math.min(MOST_BARS, Math.max(1, Number(each.rest?.text ?? 1)))]]
        : [],
    ),
  );

/** A gap in the line (`y`) takes no time. */
const takesTime = (item: StreamItem): item is ParsedEvent =>
  item.el_type === 'note' && item.rest?.type !== 'spacer' && item.duration > 0;

const cutBars = (stream: readonly StreamItem[], long: ReadonlyMap<number, number>): readonly VoiceBar[] => {
  const bars: { items: BarItem[]; opening: ParsedBarLine[]; closing: ParsedBarLine[] }[] = [];
  let items: BarItem[] = [];
  let opening: ParsedBarLine[] = [];
  const close = (): void => {
    bars.push({ items, opening, closing: [] });
    items = [];
    opening = [];
  };
  for (const item of stream) {
    if (item.el_type !== 'bar') {
      items.push(item);
      const rested = item.el_type === 'note' ? restedBars(item, long) : 1;
      for (let more = 1; more < rested; more += 1) {
        close();
        items.push(item);
      }
      continue;
    }
    if (items.some(takesTime)) close();
    const last = bars.at(-1);
    if (last === undefined) opening.push(item);
    else last.closing.push(item);
  }
  if (items.some(takesTime)) close();
  return bars;
};

const restedBars = (event: ParsedEvent, long: ReadonlyMap<number, number>): number => {
  if (!isLongRest(event) && event.rest?.type !== 'invisible') return 1;
  return (event.startChar === undefined ? undefined : long.get(event.startChar)) ?? 1;
};
