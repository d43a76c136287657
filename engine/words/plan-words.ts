import { group } from '../group.ts';
import { type Pitch, pitchName, spelledName } from '../music/pitch.ts';
import { namePlaceInBar } from './bars.ts';
import { nameCount, uncapitalize } from './counts.ts';
import { listNames } from './lists.ts';

/** What the page and the command say alike of plans. */

/** That a plan is not proven to be the best. */
export const SEARCH_ENDED = 'the best plan found; there were too many possible plans to try them all';

/** What stands beside a grade. */
export const OWN_SCALE = 'No scale for this is published: the grades are our own.';

/** That not all tunings of a lever harp were tried. */
export const TUNINGS_UNTRIED = 'there were too many changes to try all tunings';

/** Over both harps as they do as written, and in the keys that were looked for with the lever harp in mind. */
export const BOTH_HARPS_HEADING = 'Both harps as written, and in keys that suit the lever harp better';

/** That comparing found no other key. */
export const NO_BETTER_KEY = 'No other key was found that suits the lever harp better.';

/** A tuning in figures. */
interface TuningFigures {
  readonly name: string;
  /** Null where it was not planned in: a better one was found before. */
  readonly stops: number | null;
  readonly changes: number;
  readonly leversUp: number;
  readonly retuned: number;
  readonly respelled: number;
  readonly missingNotes: number;
}

type TuningColumn = readonly [head: string, tell: (tuning: TuningFigures) => string];

const NOT_PLAYABLE: TuningColumn = [
  'not playable',
  ({ stops }) => (stops === null ? 'not tried' : `${stops}`),
];

const TUNING_COLUMNS: readonly TuningColumn[] = [
  ['tuning', ({ name }) => name],
  ['changes', ({ changes }) => `${changes}`],
  ['levers up', ({ leversUp }) => `${leversUp}`],
  ['to retune', ({ retuned }) => `${retuned}`],
  ['on next string', ({ respelled }) => `${respelled}`],
  ['missing notes', ({ missingNotes }) => `${missingNotes}`],
];

/**
 * A table of tunings, the chosen one first. What is not playable in each comes before the changes wherever it decided:
 * the chosen tuning has the fewest such places, and of those with as few the fewest changes.
 */
export const tabulateTunings = (
  tunings: readonly TuningFigures[],
): { readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] } => {
  const [chosen, ...others] = tunings;
  const isDecisive = chosen?.stops !== 0 || others.some(({ stops }) => stops !== null);
  const [name, ...rest] = TUNING_COLUMNS;
  const columns = isDecisive ? [name!, NOT_PLAYABLE, ...rest] : TUNING_COLUMNS;
  return {
    heads: columns.map(([head]) => head),
    rows: tunings.map((tuning) => columns.map(([, tell]) => tell(tuning))),
  };
};

/** The levers that are up before the first note. @param names as `F♯4` */
export const nameLeversUp = (names: readonly string[]): string =>
  names.length === 0 ? 'all levers down' : `levers up: ${names.join(', ')}`;

/** What a respelling would bring. @param savesMoves below 0 where it costs some */
export const describeGains = (savesMoves: number, fixesPlaces: number): string =>
  [
    ...(savesMoves > 0 ? [`saves ${nameCount(savesMoves, 'move')}`] : []),
    ...(fixesPlaces > 0 ? [`makes ${nameCount(fixesPlaces, 'place')} playable`] : []),
    ...(savesMoves < 0 ? [`costs ${nameCount(-savesMoves, 'more move')}`] : []),
  ].join(', ');

/** Whether a part can be played. @param stops places that cannot */
export const describePlayable = (stops: number): string =>
  stops === 0 ? 'playable' : `${nameCount(stops, 'place')} not playable`;

/** The other way to a key: an octave from the first. */
export interface OtherWay {
  readonly semitones: number;
  /** Whether the part goes as well there. */
  readonly isAsGood: boolean;
}

/** Which way another key lies. @param semitones not 0 */
const wayTo = (semitones: number): string => (semitones > 0 ? 'up' : 'down');

/** Another key by its distance. @param semitones not 0 */
const nameTransposition = (semitones: number): string =>
  `${nameCount(Math.abs(semitones), 'semitone')} ${wayTo(semitones)}`;

/** The same key the other way, after its name one way. */
const nameOtherWay = ({ semitones, isAsGood }: OtherWay): string =>
  `${isAsGood ? ' or' : ', better than'} ${Math.abs(semitones)} ${wayTo(semitones)}`;

/**
 * A key that was tried, with its name.
 *
 * @param otherWay to the same key, where it was tried too
 * @example nameKeyTried(3, 'C minor') // '3 semitones up: C minor'
 * @example nameKeyTried(-6, 'F♯ major', { semitones: 6, isAsGood: true }) // '6 semitones down or 6 up: F♯ major'
 */
export const nameKeyTried = (semitones: number, key: string, otherWay: OtherWay | null = null): string => {
  if (semitones === 0) return `as written: ${key}`;
  return `${nameTransposition(semitones)}${otherWay === null ? '' : nameOtherWay(otherWay)}: ${key}`;
};

/** Over the keys of the pedal harp. */
export const PEDAL_KEYS_HEADING = 'Keys for the pedal harp, the best first';

/** By what the keys of the pedal harp are ordered (H. Berlioz, *Traité d'instrumentation*, La Harpe, of the flats). */
export const PEDAL_KEYS_ORDER =
  'First come the keys in which the fewest places are not playable, then those with the fewest moves; of keys alike in both, those with more flats: with the pedals up the strings are longest and ring fuller.';

/** A kind of warning by its title, and its bars in words. */
interface ToldWarning {
  readonly title: string;
  readonly bars: string;
}

const listWarnings = (warnings: readonly ToldWarning[]): string =>
  warnings.map(({ title, bars }) => `${uncapitalize(title)} (${bars})`).join('; ');

/**
 * That what can be played has warnings all the same; empty where it has none.
 *
 * @example tellWarningsLeft([{ title: 'Feet hurried', bars: 'bars 3–4' }]) // 'Warnings are left: feet hurried (bars 3–4).'
 */
export const tellWarningsLeft = (left: readonly ToldWarning[]): string =>
  left.length === 0 ? '' : `Warnings are left: ${listWarnings(left)}.`;

/**
 * What a fix makes of the feet's work: moves that it costs or saves, and what is risky or awkward then and is not told now: a place
 * that cannot be played may have hidden it. Empty for nothing.
 *
 * @param moves by how many the plan grows; below zero where it has fewer
 */
export const tellCosts = (moves: number, thenTold: readonly ToldWarning[]): string =>
  [
    ...(moves > 0 ? [`Costs ${nameCount(moves, 'more move')}.`] : []),
    ...(moves < 0 ? [`Saves ${nameCount(-moves, 'move')}.`] : []),
    ...(thenTold.length > 0 ? [`Warnings then: ${listWarnings(thenTold)}.`] : []),
  ].join(' ');

/**
 * Notes by number, and in which octaves they are where these are several.
 *
 * @example nameNotesIn(2, [2, 5]) // '2 notes in octaves 2 and 5'
 */
export const nameNotesIn = (notes: number, octaves: readonly number[]): string =>
  `${nameCount(notes, 'note')}${octaves.length > 1 ? ` in octaves ${listNames(octaves.map(String))}` : ''}`;

/**
 * Notes that could be read as others, as written and as played: without octaves where they are in several.
 *
 * @example nameRun({ from: E5, to: F♭5, octaves: [2, 5] }) // { from: 'E', to: 'F♭' }
 */
export const nameRun = ({
  from,
  to,
  octaves,
}: {
  readonly from: Pitch;
  readonly to: Pitch;
  readonly octaves: readonly number[];
}): { readonly from: string; readonly to: string } => {
  const name = octaves.length > 1 ? spelledName : pitchName;
  return { from: name(from), to: name(to) };
};

/**
 * For how many places of a passage a fix is; empty for all.
 *
 * @example forSomePlaces(4, 6) // 'For 4 of these 6 places: '
 */
export const forSomePlaces = (some: number | undefined, all: number): string =>
  some === undefined || some === all ? '' : `For ${some} of these ${all} places: `;

/**
 * Of a place that fixes of a passage mend too, which are told before.
 *
 * @example tellFixedBefore('bars 3–4') // 'What is told of bars 3–4 before helps here too.'
 */
export const tellFixedBefore = (bars: string): string => `What is told of ${bars} before helps here too.`;

/** Warnings without those of which kind and bars are told already. */
export const warningsBeside = <
  Warning extends { readonly code: string; readonly barIndices: readonly number[] },
>(
  warnings: readonly Warning[],
  told: readonly Pick<Warning, 'code' | 'barIndices'>[],
): readonly Warning[] =>
  warnings.filter(
    ({ code, barIndices }) =>
      !barIndices.every((bar) => told.some((other) => other.code === code && other.barIndices.includes(bar))),
  );

/**
 * Up to which tempo a part can be played.
 *
 * @param tempo the fastest; null where none is slow enough
 * @param written the tempo of the score
 * @param isAssumed the score states none
 */
export const tellPlayableUpTo = (tempo: string | null, written: string, isAssumed: boolean): string =>
  tempo === null
    ? `No tempo down to a quarter of the ${isAssumed ? 'assumed' : 'written'} one makes every place playable.`
    : `Playable up to ${tempo}; ${isAssumed ? 'no tempo is written, assumed is' : 'written'} ${written}.`;

/** A part spelled freely, beside the same part as it is spelled. */
interface SpelledFreely {
  readonly stops: number;
  readonly respelled: number;
  readonly moreMoves: number;
}

/**
 * What free spelling of the whole part comes to, where it makes places playable.
 *
 * @example tellFreeSpelling({ stops: 0, respelled: 61, moreMoves: -30 }) // 'With free spelling every place is playable: 61 notes on other strings, which sound the same, and 30 moves fewer.'
 */
export const tellFreeSpelling = ({ stops, respelled, moreMoves }: SpelledFreely): string => {
  const left =
    stops === 0 ? 'every place is playable' : `only ${nameCount(stops, 'place')} would not be playable`;
  const moves =
    moreMoves === 0
      ? 'as many moves'
      : `${nameCount(Math.abs(moreMoves), 'move')} ${moreMoves < 0 ? 'fewer' : 'more'}`;
  const sounds = respelled === 1 ? 'which sounds' : 'which sound';
  return `With free spelling ${left}: ${nameCount(respelled, 'note')} on other strings, ${sounds} the same, and ${moves}.`;
};

/** Places of one tempo that are named. */
const MOST_MENDED = 6;

/** A place that a slower tempo of the whole part makes playable, and the fastest as people are told it. */
interface MendedAt {
  readonly barName: string;
  readonly beat: string;
  /** The first tempo of the part, and that of the place. */
  readonly tempo: string;
  readonly there: string;
}

/**
 * Which places a slower tempo of the whole part makes playable, where none does so for all.
 *
 * @returns empty where there is none
 * @example tellMended([{ barName: '3', beat: '2', tempo: '♩ = 60', there: '♩ = 60' }]) // 'Slower, some places are playable: bar 3, beat 2 (up to ♩ = 60).'
 */
export const tellMended = (mended: readonly MendedAt[]): string => {
  const byTempo = group(mended, ({ tempo, there }) =>
    tempo === there ? tempo : `${there} there, with ${tempo} at the start`,
  );
  const told = [...byTempo].map(([tempo, alike]) => {
    const places = [...new Set(alike.map(({ barName, beat }) => namePlaceInBar(barName, beat)))];
    const more = places.length - MOST_MENDED;
    const named = [...places.slice(0, MOST_MENDED), ...(more > 0 ? [`${more} more`] : [])];
    return `${named.join('; ')} (up to ${tempo})`;
  });
  return told.length === 0 ? '' : `Slower, some places are playable: ${told.join('; ')}.`;
};

/** “Heard otherwise: nothing.” What begins with the name of a note keeps its capital. */
export const tellHeard = (heard: string): string =>
  `Heard otherwise: ${/^[A-G][♭♯♮𝄪𝄫\d]/u.test(heard) ? heard : uncapitalize(heard)}`;
