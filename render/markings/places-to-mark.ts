import {
  type Bar,
  buildClock,
  compare,
  equals,
  FEET,
  hasRested,
  isInPause,
  LETTERS,
  type Move,
  type Plan,
  type Rational,
  rationalKey,
  type Score,
  toldAtIn,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { needsPedalsFrom } from './needs-pedals.ts';
import type { PrintedMoves } from './printed-moves.ts';
import { findSilences, pauseTimes, type Silence } from './silences.ts';

/** A place that may get a marking: what moves there, and whether a full setting is wanted. */
export interface PlaceToMark {
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly graceNote: string | null;
  readonly moves: readonly Move[];
  /**
   * `always` even where a setting stands shortly before and nothing has moved since; `dropped` where the user wants
   * none, and the moves there are told as changes.
   */
  readonly setting: 'none' | 'wanted' | 'always' | 'dropped';
}

/** What decides the places. */
export type PlaceOptions = Pick<
  EngravingOptions,
  'density' | 'settings' | 'fullSettings' | 'multiBarRests' | 'marksAt'
>;

/** A setting is clearer than a list of changes from this many pedals on (common practice, no source). */
const CHANGES_PER_SETTING = 3;

/**
 * Where markings stand, in order of time.
 *
 * In a silence the player sets pedals at leisure. So the moves of a silence may be told together: as a setting where
 * one is wanted or three pedals move, and as one change under the sign of a joined rest. They are put together only
 * where each foot has its time between the marking and the next note; else each move stands at its own moment, or at
 * the note that needs it.
 *
 * @param reminders bars (indices) at whose start the setting in force is printed in any case
 * @param placeOf where a move stands that is not told together with others
 */
export const placesToMark = (
  score: Score,
  plan: Plan,
  options: PlaceOptions,
  reminders: readonly number[],
  { placeOf }: Pick<PrintedMoves, 'placeOf'>,
): PlaceToMark[] => {
  const places = new PlaceCollector();
  const told = new Set<Move>();
  const { groups, granted, occasions } = groupMoves(score, plan, options);
  for (const group of groups) {
    places.open(group.at, group.bar, null, group.setting).moves.push(...group.moves);
    for (const move of group.moves) told.add(move);
  }
  const toldAt = toldAtIn(score);
  for (const move of plan.moves) {
    if (told.has(move)) continue;
    const place = placeOf(move);
    places
      .open(toldAt({ ...place, pinned: place === move && move.pinned }), place.bar, place.graceNote, 'none')
      .moves.push(move);
  }
  for (const occasion of occasions) {
    if (!granted.has(occasion)) places.open(occasion.at, occasion.bar, null, 'wanted');
  }
  if (options.settings.start) places.open(score.bars[0]!.onset, 0, null, 'always');
  const movements = options.density !== 'changes' && options.settings.movements ? score.movements : [];
  for (const bar of movements) places.open(score.bars[bar]!.onset, bar, null, 'always');
  for (const bar of reminders) places.open(score.bars[bar]!.onset, bar, null, 'always');
  const forced = new Map(options.fullSettings.map(({ at, print }) => [rationalKey(at), print]));
  for (const { at, bar } of options.fullSettings) {
    if (forced.get(rationalKey(at)) === true) places.open(at, bar, null, 'always');
  }
  return places.inOrder().map((place) => ({
    ...place,
    setting: forced.get(rationalKey(place.at)) === false ? 'dropped' : settingAt(place, options),
  }));
};

/** Moves that are told together in a silence, and the settings that the music asks for: all of them, and those told so. */
interface GroupedMoves {
  readonly groups: readonly Group[];
  readonly occasions: readonly SettingOccasion[];
  readonly granted: ReadonlySet<SettingOccasion>;
}

/** Moves that are told together in a silence: where their marking stands, each of them is told. */
export const groupMoves = (score: Score, plan: Plan, options: PlaceOptions): GroupedMoves => {
  const occasions = listOccasions(score, plan, options);
  const granted = new Set<SettingOccasion>();
  const groups = silencesWith(score, plan, occasions).flatMap((silence) => {
    const found = groupsIn(silence, score, plan, options);
    if (found.some(({ setting }) => setting !== 'none'))
      for (const occasion of silence.wishes) granted.add(occasion);
    return found;
  });
  return { groups, occasions, granted };
};

const settingAt = (place: PlaceToMark, { density, settings }: PlaceOptions): PlaceToMark['setting'] => {
  if (place.setting !== 'none') return place.setting;
  const many = place.moves.length >= CHANGES_PER_SETTING && settings.threeChanges && density !== 'changes';
  return many ? 'always' : 'none';
};

/** A place where the music asks for a full setting. */
interface SettingOccasion {
  readonly at: Rational;
  readonly bar: number;
}

const listOccasions = (score: Score, plan: Plan, { density, settings }: PlaceOptions): SettingOccasion[] => {
  if (density === 'changes') return [];
  const glissandi = score.sweeps.filter((sweep) => sweep.kind === 'glissando');
  const rehearsals = score.landmarks.filter((landmark) => landmark.kind === 'rehearsal');
  const occasions = [
    ...(settings.glissandi ? glissandi.map(({ start, bar }) => ({ at: start, bar })) : []),
    ...(settings.rehearsalMarks ? rehearsals.map(({ bar }) => ({ at: score.bars[bar]!.onset, bar })) : []),
    ...keyChanges(score, settings.keyChangeLetters).map(({ onset, index }) => ({ at: onset, bar: index })),
  ];
  return score.share === null
    ? occasions
    : occasions.filter(({ at }) => needsPedalsFrom(score, plan.tunings, at));
};

/** Bars at whose start the key signature changes so many letters or more. */
const keyChanges = ({ bars }: Score, least: number | null): Bar[] =>
  least === null
    ? []
    : bars.slice(1).filter((bar, i) => {
        const letters = Math.min(LETTERS.length, Math.abs(bar.keyFifths - bars[i]!.keyFifths));
        return letters >= Math.max(1, least);
      });

/** What the music and the options say of a setting, before the user drops it. */
type Occasion = Exclude<PlaceToMark['setting'], 'dropped'>;

/** Collects moves and wishes that fall on one moment. */
class PlaceCollector {
  readonly #places = new Map<string, PlaceToMark & { moves: Move[]; setting: Occasion }>();

  open(at: Rational, bar: number, graceNote: string | null, setting: Occasion) {
    const key = `${rationalKey(at)};${graceNote ?? ''}`;
    const place = this.#places.get(key) ?? { at, bar, graceNote, moves: [], setting: 'none' as const };
    this.#places.set(key, place);
    if (setting === 'always' || place.setting === 'none') place.setting = setting;
    return place;
  }

  /** Before grace notes before the onset they lead to. */
  inOrder(): PlaceToMark[] {
    return [...this.#places.values()].sort(
      (a, b) => compare(a.at, b.at) || Number(a.graceNote === null) - Number(b.graceNote === null),
    );
  }
}

/** A silence with the moves made in it, up to just before its next note, and the settings wanted in it. */
interface BusySilence extends Silence {
  readonly moves: Move[];
  readonly wishes: SettingOccasion[];
}

const silencesWith = (score: Score, plan: Plan, occasions: readonly SettingOccasion[]): BusySilence[] => {
  const silences = findSilences(score).map((silence): BusySilence => ({ ...silence, moves: [], wishes: [] }));
  const firstGraces = firstGraceNotes(score);
  const pauses = pauseTimes(score);
  const isPause = (at: Rational): boolean => pauses.some((pause) => equals(pause, at));
  const find = (at: Rational, includesEnd: boolean): BusySilence | undefined => {
    const later = silences.findLast(({ from }) => compare(from, at) <= 0);
    if (later !== undefined && (later.until === null || compare(at, later.until) < 0)) return later;
    return later !== undefined && includesEnd && equals(at, later.until!) && !isPause(at) ? later : undefined;
  };
  for (const move of plan.moves) {
    // Between two movements the second is set for: its setting stands where it begins.
    if (isInPause(score, move)) continue;
    // Whoever pinned it wants it there.
    if (move.pinned) continue;
    // A move after a grace note is made while the hands already play.
    const precedesAll = move.graceNote === (firstGraces.get(rationalKey(move.at)) ?? null);
    find(move.at, precedesAll)?.moves.push(move);
  }
  for (const occasion of occasions) find(occasion.at, true)?.wishes.push(occasion);
  return silences;
};

/** The first of the grace notes that lead to an onset. */
const firstGraceNotes = (score: Score): Map<string, string> => {
  const first = new Map<string, string>();
  for (const note of score.notes) {
    if (note.grace?.order === 0 && note.role !== 'cue') first.set(rationalKey(note.onset), note.id);
  }
  return first;
};

/** Moves of one silence that are told together. */
export interface Group {
  readonly at: Rational;
  readonly bar: number;
  readonly moves: readonly Move[];
  readonly setting: Occasion;
}

const groupsIn = (silence: BusySilence, score: Score, plan: Plan, options: PlaceOptions): Group[] => {
  const { moves, wishes: occasions } = silence;
  const many = options.settings.threeChanges && moves.length >= CHANGES_PER_SETTING;
  const isLong =
    isLongRest(silence, options) &&
    silence.until !== null &&
    needsPedalsFrom(score, plan.tunings, silence.until);
  const wanted = options.density !== 'changes' && (occasions.length > 0 || many || isLong);
  const hasTime = footTimeChecker(score, silence, plan.footRestSeconds);
  if (wanted) {
    const place = settingPlaces(silence, score).find(({ at }) => hasTime(at, moves));
    return place === undefined ? [] : [{ ...place, moves, setting: isLong ? 'always' : 'wanted' }];
  }
  // At the notes that need them changes are not told together.
  if (!options.multiBarRests || options.marksAt === 'note') return [];
  return silence.rests.flatMap(({ first, last }) => {
    const inside = moves.filter((move) => move.bar >= first && move.bar <= last);
    const at = score.bars[first]!.onset;
    return inside.length > 0 && hasTime(at, inside)
      ? [{ at, bar: first, moves: inside, setting: 'none' as const }]
      : [];
  });
};

/** A rest before the first note or after the last one is not "after a long rest". */
const isLongRest = ({ from, until, rests }: Silence, { settings }: PlaceOptions): boolean => {
  const bars = rests.reduce((sum, { first, last }) => sum + last - first + 1, 0);
  const isLong = settings.afterRestBars !== null && bars >= Math.max(1, settings.afterRestBars);
  return isLong && from.num > 0 && until !== null;
};

/** Where the setting of a silence may stand, the best place first: in the last bars of rest, near the entry. */
const settingPlaces = (
  { moves, wishes: occasions, rests }: BusySilence,
  score: Score,
): { at: Rational; bar: number }[] => [
  ...[...rests].reverse().map(({ first }) => ({ at: score.bars[first]!.onset, bar: first })),
  ...occasions.map(({ at, bar }) => ({ at, bar })),
  ...moves.slice(0, 1).map(({ at, bar }) => ({ at, bar })),
];

/** Whether each foot can make its moves one after the other from a moment on, before the silence ends. */
const footTimeChecker = (score: Score, { from, until }: Silence, footRestSeconds: number) => {
  const secondsAt = buildClock(score.tempo);
  return (at: Rational, moves: readonly Move[]): boolean => {
    if (compare(at, from) < 0) return moves.length === 0;
    const seconds = until === null ? Number.POSITIVE_INFINITY : secondsAt(until) - secondsAt(at);
    const counts = Object.values(FEET).map(
      (letters) => moves.filter((move) => letters.includes(move.letter)).length,
    );
    const isAsPlanned = moves.every((move) => equals(move.at, at));
    return isAsPlanned || hasRested(seconds, Math.max(...counts) * footRestSeconds);
  };
};
