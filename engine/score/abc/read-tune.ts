import { ZERO } from '../../music/rational.ts';
import { fail, ok, type Problem, type Result } from '../../problem.ts';
import type { Remark } from '../model/remark.ts';
import { PART_LIMITS } from '../part-limits.ts';
import { assembleTune } from './assemble-tune.ts';
import { ABC_LIMITS, type BookTune, type TuneBook } from './book/tune-book.ts';
import { findTuneExcess } from './book/tune-limits.ts';
import type { Losses } from './losses.ts';
import { parseTune } from './parse-tune.ts';
import type { ParsedEvent, ParsedTune } from './parsed-tune.ts';
import type { BarMark, Tune, TuneBar } from './tune.ts';
import { readTuneSource, type TuneSource } from './tune-source.ts';
import { readVoice } from './voice/read-voice.ts';
import { readVoiceBars } from './voice/voice-bars.ts';
import { readTempo } from './voice/words.ts';

/** A tune that was read, and what of it is not carried over. */
export interface ReadTune {
  readonly tune: Tune;
  readonly remarks: readonly Remark[];
}

/**
 * Reads one tune of a book.
 *
 * @returns `bad-tune` where the parser gives up, `no-music` where the tune has no notes, or `limit-exceeded`
 */
export const readTune = async ({ header }: TuneBook, chosen: BookTune): Promise<Result<ReadTune>> => {
  const asked = findTuneExcess(chosen.lines);
  if (asked !== null) return fail(asked);
  const { source, losses } = readTuneSource(header, chosen);
  const parsed = await parseTune(source.text, chosen, losses);
  if (!parsed.ok) return parsed;
  const excess = findExcess(parsed.value);
  if (excess !== null) return fail(excess);
  tellChordLengths(parsed.value, source, losses);
  const voices = readVoiceBars(parsed.value.lines).map((voice) => readVoice(voice, source.reach, losses));
  const { staves, bars, spans } = assembleTune(voices, namesOf(parsed.value));
  if (!bars.some(({ layers }) => layers.some(({ events }) => events.some(({ kind }) => kind === 'note'))))
    return fail({ code: 'no-music', tune: chosen.number });
  const { titles, composer, fields } = source;
  const tune = {
    titles,
    composer,
    fields,
    staves,
    bars: withStart(bars, parsed.value, orderLine(chosen), losses),
    spans,
  };
  return ok({ tune, remarks: losses.remarks() });
};

/** What no page and no planner would take is not written out first. */
const findExcess = ({ lines }: ParsedTune): Problem | null => {
  const music = lines.flatMap(({ staff }) => (staff === undefined ? [] : [staff]));
  const staves = music.reduce((most, line) => Math.max(most, line.length), 0);
  const elements = music.flatMap((line) => line.flatMap(({ voices }) => voices.flat()));
  const notes = elements.filter((each) => each.el_type === 'note').length;
  const bars = elements.filter((each) => each.el_type === 'bar').length;
  if (staves > ABC_LIMITS.staves)
    return { code: 'limit-exceeded', what: 'staves', limit: ABC_LIMITS.staves, found: staves };
  if (notes > PART_LIMITS.notes)
    return { code: 'limit-exceeded', what: 'notes', limit: PART_LIMITS.notes, found: notes };
  return bars > PART_LIMITS.bars * staves
    ? { code: 'limit-exceeded', what: 'bars', limit: PART_LIMITS.bars, found: bars }
    : null;
};

/** The names of the staves, as their first voices state them. */
const namesOf = ({ lines }: ParsedTune): readonly string[] => {
  const first = lines.find(({ staff }) => staff !== undefined)?.staff ?? [];
  return first.map(({ title }) => {
    const name = title?.[0];
    return (typeof name === 'string' ? name : (name?.name ?? '')).trim();
  });
};

/** The line of the head that states the order of the parts; null where the file’s own head does. */
const orderLine = ({ line, lines }: BookTune): number | null => {
  const head = lines.findIndex((each) => each.startsWith('K:'));
  const at = lines.slice(0, Math.max(head, 0)).findIndex((each) => each.startsWith('P:'));
  return at < 0 ? null : line + at;
};

/** The tempo and the order of parts that the head of the tune states stand over its first bar. */
const withStart = (
  bars: readonly TuneBar[],
  { metaText: { tempo, partOrder } }: ParsedTune,
  line: number | null,
  losses: Losses,
): readonly TuneBar[] => {
  const read = tempo === undefined ? null : readTempo(tempo);
  const order = typeof partOrder === 'string' ? partOrder.trim() : '';
  if (order !== '')
    losses.inLine(
      'The order of the parts (P:) is printed; the plan takes the parts in the order of the page',
      line,
    );
  const marks: readonly BarMark[] = [
    ...(read === null ? [] : [{ at: ZERO, ...read }]),
    ...(order === '' ? [] : [{ at: ZERO, kind: 'text', text: order } as const]),
  ];
  return bars.map((bar, index) => (index === 0 ? { ...bar, marks: [...marks, ...bar.marks] } : bar));
};

/** The parser gives a chord the length of its first note: where its notes are of several lengths, that is told. */
const tellChordLengths = ({ lines }: ParsedTune, { text }: TuneSource, losses: Losses): void => {
  const events = lines.flatMap(({ staff }) =>
    (staff ?? []).flatMap(({ voices }) => voices.flat().filter((each) => each.el_type === 'note')),
  );
  for (const { pitches, startChar, endChar } of events as readonly ParsedEvent[]) {
    if ((pitches?.length ?? 0) < 2 || startChar === undefined || endChar === undefined) continue;
    const inside =
      /\[([^\]]*)\]/u.exec(text.slice(startChar, endChar).replace(/"[^"]*"|![^!]*!/gu, ''))?.[1] ?? '';
    const lengths = [...inside.matchAll(/[A-Ga-g][,']*([\d/]*)/gu)].map((match) => match[1]);
    if (new Set(lengths).size > 1)
      losses.at('Notes of a chord all last as long as its first note', startChar);
  }
};
