import { isSetting } from '../harp/setting.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import type { RedundantMarking } from '../proof/marking-faults.ts';
import type { MarkingPlayback } from '../proof/marking-playback.ts';
import { type PartEvents, placeMarkings } from '../proof/part-events.ts';
import { type MarksAt, playByMarkings } from '../proof/play-by-markings.ts';
import type { SourceMarking } from '../score/model/markings.ts';
import type { Score } from '../score/model/score.ts';
import { placeAt } from './judged-change.ts';
import type { Needless } from './model.ts';
import { keyOf, type RepairedPart } from './repaired-part.ts';

/** What a marking states of one pedal. */
interface Statement {
  readonly marking: number;
  readonly letter: Letter;
}

/** Playing by the markings, and what of them is known not to be wanted. */
interface NeedlessSearch {
  readonly repaired: RepairedPart;
  readonly part: PartEvents;
  readonly marksAt: MarksAt;
  /** What does nothing as it stands. */
  readonly redundant: readonly RedundantMarking[];
  readonly letters: readonly Letter[];
  /** Changes that are as they should be though nothing asks for them. */
  readonly isExempt: (marking: number) => boolean;
}

/**
 * Changes that nothing is lost without, though each note finds its pedal with them: those that do nothing, those that no
 * note asks for before the pedal moves again, of a full setting too, and those that only take one of these back. The
 * latter are found by playing the part without the former, until nothing more is found.
 *
 * @returns by the marking before the repair and pedal
 */
export const findNeedless = (
  score: Score,
  played: MarkingPlayback,
  search: NeedlessSearch,
): ReadonlyMap<string, Needless> => {
  const { repaired, redundant } = search;
  const found = new Map<string, Statement & { readonly why: Needless['why'] }>(
    redundant.map((each) => [keyOf(each.marking, each.letter), each]),
  );
  const moves = listMoves(search);
  for (;;) {
    const unasked = [...found.values()].filter(({ why }) => why === 'unasked');
    const trial = { ...repaired.score, markings: leaveOut(repaired.score.markings, unasked) };
    const playback = playByMarkings(trial, placeMarkings(trial, search.part), search.marksAt);
    const isLost = [...playback.needFaults.keys()].some((key) => !repaired.playback.needFaults.has(key));
    const more = isLost ? [] : moves.flatMap((move) => whyNeedless(move, playback, found));
    if (more.length === 0) break;
    for (const each of more) found.set(keyOf(each.marking, each.letter), each);
  }
  return new Map(
    [...found.values()].flatMap(({ marking, letter, why }): [string, Needless][] => {
      const origin = repaired.originOf.get(marking);
      if (origin === undefined) return [];
      const moved = played.effectOf(origin, letter).changed > 0;
      // What stands so once another mistake is put right has been written to take that back.
      const because = why === 'stands' && moved ? 'undoes' : why;
      return [[keyOf(origin, letter), explain(score, { marking: origin, letter }, because)]];
    }),
  );
};

/** Statements that move their pedal. In a full setting the first of a pedal says where it stands, and moves nothing. */
const listMoves = ({
  repaired: { score, playback },
  letters,
  isExempt,
}: NeedlessSearch): readonly Statement[] => {
  const blamed = new Set(playback.failures.map(({ marking, letter }) => keyOf(marking, letter)));
  const known = new Set<Letter>();
  return score.markings.flatMap(({ positions }, marking) =>
    letters
      .filter((letter) => {
        if (positions[letter] === undefined) return false;
        const isFirst = !known.has(letter);
        known.add(letter);
        if ((isFirst && isSetting(positions)) || isExempt(marking)) return false;
        return playback.effectOf(marking, letter).changed > 0 && !blamed.has(keyOf(marking, letter));
      })
      .map((letter) => ({ marking, letter })),
  );
};

const whyNeedless = (
  { marking, letter }: Statement,
  playback: MarkingPlayback,
  found: ReadonlyMap<string, unknown>,
): readonly (Statement & { readonly why: Needless['why'] })[] => {
  if (found.has(keyOf(marking, letter))) return [];
  const { changed, needed } = playback.effectOf(marking, letter);
  if (changed === 0) return [{ marking, letter, why: 'undoes' }];
  return needed === 0 ? [{ marking, letter, why: 'unasked' }] : [];
};

/** The markings without some of their statements, each at its index. */
const leaveOut = (
  markings: readonly SourceMarking[],
  statements: readonly Statement[],
): readonly SourceMarking[] => {
  const out = new Set(statements.map(({ marking, letter }) => keyOf(marking, letter)));
  return markings.map((marking, index) => ({
    ...marking,
    positions: Object.fromEntries(
      LETTERS.flatMap((letter) =>
        marking.positions[letter] === undefined || out.has(keyOf(index, letter))
          ? []
          : [[letter, marking.positions[letter]]],
      ),
    ),
  }));
};

/** With the place from which on the pedal stands so, or up to which nothing asks for it. */
const explain = (score: Score, { marking, letter }: Statement, why: Needless['why']): Needless => {
  const position = score.markings[marking]!.positions[letter];
  const isOther = ({ positions }: SourceMarking): boolean =>
    positions[letter] !== undefined && positions[letter] !== position;
  if (why === 'unasked')
    return { why, place: placeOf(score, score.markings.slice(marking + 1).find(isOther)) };
  if (why !== 'stands') return { why, place: null };
  const before = score.markings.slice(0, marking);
  const same = before.slice(before.findLastIndex(isOther) + 1);
  return {
    why,
    place: placeOf(
      score,
      same.find(({ positions }) => positions[letter] !== undefined),
    ),
  };
};

const placeOf = (score: Score, marking: SourceMarking | undefined): Needless['place'] =>
  marking === undefined ? null : placeAt(score, marking.bar, marking.at);
