import {
  type Foot,
  formatChange,
  formatSetting,
  type Position,
  type Setting,
} from '../engine/harp/setting.ts';
import type { Letter } from '../engine/music/pitch.ts';
import { compare, type Rational, rationalKey } from '../engine/music/rational.ts';
import type { Move, Plan } from '../engine/plan/model.ts';
import { beatAt } from '../engine/plan/moments.ts';
import type { Score } from '../engine/score/model.ts';

/** One pedal of a change as printed. */
export interface PedalChange {
  readonly letter: Letter;
  readonly position: Position;
}

/** What is printed for the player at one place. */
export type Marking = MarkingPlace &
  (
    | { readonly kind: 'setting'; readonly setting: Setting; readonly changed: readonly Letter[] }
    | {
        readonly kind: 'change';
        readonly left: readonly PedalChange[];
        readonly right: readonly PedalChange[];
      }
  );

export interface MarkingPlace {
  /** Unique among the markings of a score, stable for the same plan. */
  readonly id: string;
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly beat: Rational;
  /** Id of the grace note before which it stands; null at an onset or a beat. */
  readonly graceNote: string | null;
}

/** A setting is clearer than a list of changes from this many pedals on. */
const CHANGES_PER_SETTING = 3;

/**
 * The markings that tell a plan to the player: the full setting before the first note, before each glissando, and
 * where three or more pedals change at once; elsewhere the changes, one marking a moment.
 */
export const chooseMarkings = (score: Score, plan: Plan): Marking[] => {
  const markings: Marking[] = [];
  const setting: Record<Letter, Position> = { ...plan.initial };
  let changed: Letter[] = [];
  for (const { at, bar, graceNote, moves, wantsSetting } of placesToMark(score, plan)) {
    for (const move of moves) {
      setting[move.letter] = move.to;
      changed.push(move.letter);
    }
    const place = {
      id: `marking-${markings.length + 1}`,
      at,
      bar,
      beat: beatAt(score.bars[bar]!, at),
      graceNote,
    };
    if (wantsSetting || moves.length >= CHANGES_PER_SETTING) {
      markings.push({ kind: 'setting', setting: { ...setting }, changed, ...place });
      changed = [];
    } else {
      markings.push({
        kind: 'change',
        left: changesOf(moves, 'left'),
        right: changesOf(moves, 'right'),
        ...place,
      });
    }
  }
  return markings;
};

interface PlaceToMark {
  readonly at: Rational;
  readonly bar: number;
  readonly graceNote: string | null;
  readonly moves: readonly Move[];
  readonly wantsSetting: boolean;
}

const placesToMark = (score: Score, plan: Plan): PlaceToMark[] => {
  const places = new Map<string, PlaceToMark & { moves: Move[]; wantsSetting: boolean }>();
  const open = (at: Rational, bar: number, graceNote: string | null) => {
    const key = `${rationalKey(at)};${graceNote ?? ''}`;
    const place = places.get(key) ?? { at, bar, graceNote, moves: [], wantsSetting: false };
    places.set(key, place);
    return place;
  };
  open(score.bars[0]!.onset, 0, null).wantsSetting = true;
  for (const move of plan.moves) open(move.at, move.bar, move.graceNote).moves.push(move);
  for (const sweep of score.sweeps) {
    if (sweep.kind === 'glissando') open(sweep.start, sweep.bar, null).wantsSetting = true;
  }
  return [...places.values()].sort(
    (a, b) => compare(a.at, b.at) || Number(a.graceNote === null) - Number(b.graceNote === null),
  );
};

const changesOf = (moves: readonly Move[], foot: Foot): PedalChange[] =>
  moves.filter((move) => move.foot === foot).map(({ letter, to }) => ({ letter, position: to }));

/** The marking in words, for screen readers and tool tips. */
export const describeMarking = (marking: Marking): string =>
  marking.kind === 'setting'
    ? `Pedal setting ${formatSetting(marking.setting)}`
    : `Pedal change ${[...marking.right, ...marking.left]
        .map(({ letter, position }) => formatChange(letter, position))
        .join(' and ')}`;
