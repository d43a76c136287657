import { compare, type Note, type PlacedCue, type Rational, type Score } from '../../engine/index.ts';
import { type OtherPart, type PartLine, readOtherPart } from './other-part.ts';
import { type CuePassage, prominenceOf } from './prominence.ts';
import {
  type CueWish,
  cueBars,
  isLongRest,
  type RestBeforeEntry,
  restsBeforeEntries,
} from './rests-before-entries.ts';

/** What another part plays in the last bars of a rest, to be shown small. */
export interface Cue {
  /** Index of the bar in which the harp comes in. */
  readonly bar: number;
  readonly entry: Rational;
  /** Indices of the bars in which it stands. */
  readonly bars: readonly number[];
  readonly part: OtherPart;
  /** Of one line, in order of onset; none at or after the entry. */
  readonly notes: readonly Note[];
}

/** The cues of a part, and the bars (indices) of entries before which a cue was wanted and nothing is there to be cued. */
export interface ChosenCues {
  readonly cues: readonly Cue[];
  readonly without: readonly number[];
}

export const NO_CUES: ChosenCues = { cues: [], without: [] };

export interface CueRequest extends CueWish {
  /** How many bars a cue has at most. */
  readonly cueBars: number;
  /** What a user chose: a part, or null for no cue. */
  readonly cueParts: readonly PlacedCue[];
}

/**
 * Chooses for each long rest what is shown before the entry. The other parts are read only where there is such a rest;
 * cues touch nothing of the harp's own: neither its notes nor its plan.
 *
 * @param shown ids of parts that stand on the page by themselves: nothing is cued of them but by a user's choice
 */
export const chooseCues = (score: Score, request: CueRequest, shown: readonly string[] = []): ChosenCues => {
  const wishes = wishesOf(score, request);
  if (wishes.length === 0) return NO_CUES;
  const read = partReader(score);
  const others = score.parts.map(({ id }) => id).filter((id) => !shown.includes(id));
  const cues: Cue[] = [];
  const without: number[] = [];
  for (const { rest, part } of wishes) {
    const bars = cueBars(score, rest, request.cueBars);
    const parts = (part === null ? others : [part]).flatMap((id) => read(id) ?? []);
    const best = bestLine(score, rest, bars, parts, part === null ? 0 : Number.NEGATIVE_INFINITY);
    if (best === null) without.push(rest.bar);
    else cues.push({ bar: rest.bar, entry: rest.entry, bars: barsOf(best.notes, bars), ...best });
  }
  return { cues, without };
};

/** Which rests want a cue, and of which part: null for the most prominent. */
const wishesOf = (
  score: Score,
  request: CueRequest,
): readonly { readonly rest: RestBeforeEntry; readonly part: string | null }[] => {
  const chosen = new Map(request.cueParts.map(({ bar, part }) => [bar, part]));
  if (request.cues === null && request.cueSeconds === null && chosen.size === 0) return [];
  const own = score.notes.filter(({ role }) => role === 'cue').map(({ onset }) => onset);
  return restsBeforeEntries(score).flatMap((rest): { rest: RestBeforeEntry; part: string | null }[] => {
    const part = chosen.get(rest.bar);
    if (part !== undefined) return part === null ? [] : [{ rest, part }];
    // The file has a cue already.
    const has = own.some((at) => compare(at, rest.from) >= 0 && compare(at, rest.entry) < 0);
    return isLongRest(rest, request) && !has ? [{ rest, part: null }] : [];
  });
};

/** Each part is read once. */
const partReader = (score: Score): ((id: string) => OtherPart | null) => {
  const known = new Map<string, OtherPart | null>();
  return (id) => {
    const part = known.has(id) ? known.get(id)! : readOtherPart(score, id);
    known.set(id, part);
    return part;
  };
};

/** @param least what is less prominent is no cue */
const bestLine = (
  { bars: scoreBars }: Score,
  rest: RestBeforeEntry,
  bars: readonly number[],
  parts: readonly OtherPart[],
  least: number,
): Pick<Cue, 'part' | 'notes'> | null => {
  let best: { cue: Pick<Cue, 'part' | 'notes'>; prominence: number } | null = null;
  for (const part of parts) {
    for (const line of part.lines) {
      const notes = notesBefore(line, bars, rest.entry);
      if (notes.length === 0) continue;
      const passage: CuePassage = {
        notes,
        bars: bars.map((bar) => scoreBars[bar]!),
        signs: bars.map((bar) => part.signs[bar]!),
        entry: rest.entry,
      };
      const prominence = prominenceOf(passage);
      if (prominence >= least && (best === null || prominence > best.prominence))
        best = { cue: { part, notes }, prominence };
    }
  }
  return best?.cue ?? null;
};

/** Bars before the first note say nothing. */
const barsOf = (notes: readonly Note[], bars: readonly number[]): readonly number[] =>
  bars.filter((bar) => bar >= notes[0]!.bar);

const notesBefore = ({ notes }: PartLine, bars: readonly number[], entry: Rational): readonly Note[] =>
  notes.filter(({ bar, onset }) => bars.includes(bar) && compare(onset, entry) < 0);
