import { group } from '../../group.ts';
import type { HarpString } from '../../harp/profile.ts';
import { settingFrom } from '../../harp/setting.ts';
import type { LeverContext } from '../../levers/context.ts';
import { letterAtStep, stepOf } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import type { SourceMarking } from '../../score/model/markings.ts';
import type { Score } from '../../score/model/score.ts';
import type { Need } from '../../sounding/needs.ts';
import { createRivalSearch } from '../../sounding/rival-needs.ts';
import type { MarkingPlayback } from '../marking-playback.ts';
import { type PartEvents, placeMarkings, sortNeeds } from '../part-events.ts';
import { playByMarkings } from '../play-by-markings.ts';
import { startTrials, type Trials } from '../trials.ts';
import type { LeverPlace, StatedLevers } from './stated-levers.ts';

/**
 * One string and its lever as a part of its own: it is proofread as a pedal is that serves nothing else, with 0 for the
 * lever down and 1 for up. Its marking 0 says how the lever stands before the start; marking `i + 1` is the score's
 * `leverWords[i]`, empty where that does not concern the string.
 */
export interface StringPart {
  readonly step: number;
  readonly string: HarpString;
  readonly score: Score;
  readonly events: PartEvents;
  readonly needs: readonly Need[];
  readonly played: MarkingPlayback;
  readonly trials: Trials;
  readonly rivalOf: (need: Need) => Need | undefined;
}

/** Needs by the step of their string. */
export const needsByString = (needs: readonly Need[]): ReadonlyMap<number, readonly Need[]> =>
  group(needs, (need) => stepOf(need));

/** The strings that are played or told of, from the lowest. */
export const listStringParts = (
  { score, moments }: Pick<LeverContext, 'score' | 'moments'>,
  stated: StatedLevers,
  needsOf: ReadonlyMap<number, readonly Need[]>,
): readonly StringPart[] => {
  const steps = new Set([...needsOf.keys(), ...stated.said.flatMap((own) => [...own.keys()])]);
  return [...steps]
    .sort((a, b) => a - b)
    .map((step): StringPart => {
      const needs = needsOf.get(step) ?? [];
      const own = scoreOfString(score, stated, step);
      const events = sortNeeds(own, needs, moments);
      const played = playByMarkings(own, placeMarkings(own, events));
      const rivalOf = createRivalSearch(
        needs.filter(({ kind }) => kind !== 'swept'),
        moments,
      );
      // Levers have no feet: their time is judged by the hands, for all strings together.
      const trials = startTrials(own, events, played, 0, rivalOf, 'foot');
      return { step, string: letterAtStep(step), score: own, events, needs, played, trials, rivalOf };
    });
};

const scoreOfString = (score: Score, { said, atStart, tables }: StatedLevers, step: number): Score => {
  const { letter } = letterAtStep(step);
  const bar = score.playOrder[0] ?? 0;
  const { onset } = score.bars[bar]!;
  // A table is to a string what a full setting is to a pedal: it may repeat what stands.
  const inTable = (place: LeverPlace): SourceMarking['positions'] =>
    settingFrom((each) => (each === letter ? place : 0));
  const before = atStart.get(step);
  const plain = { form: 'words', ahead: false } as const;
  const start: SourceMarking = {
    ...plain,
    at: onset,
    bar,
    span: { start: 0, end: 0 },
    text: '',
    positions: before === undefined ? {} : inTable(before),
    beforeStart: true,
  };
  const markings = score.leverWords.map(({ at, bar: own, span, text, says }, i): SourceMarking => {
    const place = said[i]!.get(step)?.place;
    const positions = place === undefined ? {} : tables.has(i) ? inTable(place) : { [letter]: place };
    // A player who comes back to it does not set all levers again: what has changed since has to be told.
    const isBeforeStart = says?.isTable === true && compare(at, onset) <= 0;
    const time = says?.time ?? null;
    return {
      ...{ ...plain, at, bar: own, span, text, positions },
      ...(isBeforeStart && { beforeStart: true }),
      ...(time !== null && { onlyAt: time }),
    };
  });
  return { ...score, markings: [start, ...markings], unreadWords: [] };
};
