import { FEET, type Foot, footOf } from '../harp/setting.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import type { SourceMarking } from '../score/model/markings.ts';
import type { Score } from '../score/model/score.ts';
import type { Need } from '../sounding/needs.ts';
import { applyFixes, type FixedMarkings } from './apply-fixes.ts';
import { findLateTasks } from './late-tasks.ts';
import { contradictionKey, listContradictions } from './marking-faults.ts';
import type { MarkingPlayback, NeedFault, PedalTask } from './marking-playback.ts';
import type { MarkingFix } from './model.ts';
import { keepLetters, type PartEvents, placeMarkings } from './part-events.ts';
import { type MarksAt, playByMarkings } from './play-by-markings.ts';

/** One thing that is wrong: a note that is not served, a foot that comes too late, or markings that disagree. */
export interface Fault {
  readonly letter: Letter;
  readonly need: NeedFault | null;
  /** The change that comes too late. */
  readonly task: PedalTask | null;
}

/** What is wrong when a part is played by some markings, seen from one pedal or from all. */
export interface TrialOutcome {
  /** By key, in the order they are met. */
  readonly faults: ReadonlyMap<string, Fault>;
  readonly late: readonly PedalTask[];
  readonly tasks: readonly PedalTask[];
  readonly fixed: FixedMarkings;
}

/** Keys of the faults that were not there before. A change that comes too late for a note that was wrong anyway is none. */
export const addedFaults = (before: TrialOutcome, after: TrialOutcome): readonly string[] => {
  let wrong: ReadonlySet<string> | null = null;
  return [...after.faults].flatMap(([key, { task }]) => {
    if (before.faults.has(key)) return [];
    if (task === null) return [key];
    wrong ??= wrongNotes(before);
    return wrong.has(`${task.letter} ${task.before.note.id} ${task.pass}`) ? [] : [key];
  });
};

const wrongNotes = ({ faults }: TrialOutcome): ReadonlySet<string> =>
  new Set(
    [...faults.values()].flatMap(({ letter, need }) =>
      need === null ? [] : [`${letter} ${need.need.note.id} ${need.pass}`],
    ),
  );

/** Plays a part by other markings than those of its file. */
export interface Trials {
  /** As it is, seen from one pedal, or from all. */
  readonly before: (letter: Letter | null) => TrialOutcome;
  /** With some changes made together, all to one pedal, or to any; null where too much has been tried already. */
  readonly after: (fixes: readonly MarkingFix[], letter: Letter | null) => TrialOutcome | null;
  /** The same however much has been tried, for what has to be known. */
  readonly prove: (fixes: readonly MarkingFix[]) => TrialOutcome;
  readonly isExhausted: () => boolean;
}

/** Notes, bars and markings that are played in trials before giving up: some seconds. Only a part that is wrong throughout needs more. */
const MOST_PLAYED = 4_000_000;

/** Changes that come too late for their foot. */
export const findLateChanges = (
  tasks: readonly PedalTask[],
  footRestSeconds: number,
): ReturnType<typeof findLateTasks<PedalTask>> =>
  (Object.keys(FEET) as Foot[]).flatMap((foot) =>
    findLateTasks(
      tasks.filter((task) => task.foot === foot),
      footRestSeconds,
    ),
  );

export const lateKey = ({ letter, before, pass }: PedalTask): string =>
  `late ${letter} for ${before.note.id} ${pass}`;

/**
 * @param played the part as played by the markings in its file
 * @param rivalOf another note that needs the pedal elsewhere at the same time
 */
export const startTrials = (
  score: Score,
  part: PartEvents,
  played: MarkingPlayback,
  footRestSeconds: number,
  rivalOf: (need: Need) => Need | undefined,
  marksAt: MarksAt,
): Trials => {
  // What is prepared moves all pedals of its marking at once: there no pedal can be judged without the others.
  const areApart = score.markings.every(({ ahead }) => !ahead);
  const partOf = new Map<Letter, PartEvents>();
  let tried = 0;
  const judge = (
    fixed: FixedMarkings,
    performance: MarkingPlayback,
    letters: readonly Letter[],
  ): TrialOutcome => {
    const of = { ...score, markings: fixed.markings };
    const feet = letters.map(footOf);
    const others = played.tasks.filter(
      ({ foot, letter }) => feet.includes(foot) && !letters.includes(letter),
    );
    const own = performance.tasks.filter(({ letter }) => letters.includes(letter));
    const tasks = [...others, ...own].sort((a, b) => a.release - b.release);
    const late = findLateChanges(tasks, footRestSeconds).map(({ task }) => task);
    const faults = new Map([
      ...needFaultsOf(performance, rivalOf),
      ...late.map((task) => [lateKey(task), { letter: task.letter, need: null, task }] as const),
      ...listContradictions(of, letters).map(
        ({ letter, first }) =>
          [contradictionKey(letter, of.markings[first]!.at), { letter, need: null, task: null }] as const,
      ),
    ]);
    return { faults, late, tasks, fixed };
  };
  const play = (fixed: FixedMarkings, letter: Letter | null): TrialOutcome => {
    const letters = letter !== null && areApart ? [letter] : LETTERS;
    const events = letters.length === 1 ? (partOf.get(letters[0]!) ?? keepLetters(part, letters)) : part;
    if (letters.length === 1) partOf.set(letters[0]!, events);
    const of = { ...score, markings: fixed.markings };
    const performance = playByMarkings(of, placeMarkings(of, events), marksAt);
    tried += performance.notesChecked + of.playOrder.length + of.markings.length;
    return judge(fixed, performance, letters);
  };
  const known = new Map<Letter | null, TrialOutcome>();
  const isExhausted = (): boolean => tried > MOST_PLAYED;
  return {
    before: (letter) => {
      const outcome = known.get(letter) ?? play(unchanged(score.markings), letter);
      known.set(letter, outcome);
      return outcome;
    },
    after: (fixes, letter) => (isExhausted() ? null : play(applyFixes(score.markings, fixes), letter)),
    prove: (fixes) => play(applyFixes(score.markings, fixes), null),
    isExhausted,
  };
};

/** Notes that sound otherwise than written, by what tells one such fault from another. */
const needFaultsOf = (
  { needFaults }: MarkingPlayback,
  rivalOf: (need: Need) => Need | undefined,
): ReadonlyMap<string, Fault> => {
  const faults = new Map<string, Fault>();
  for (const [key, need] of needFaults) {
    // A glissando that differs from the key is worth a look, and no fault.
    if (!need.isFault) continue;
    const fault = { letter: need.need.letter, need, task: null };
    const rival = rivalOf(need.need);
    if (rival !== undefined) faults.set(rivalKey(need.need, rival), fault);
    if (rival === undefined || need.stands !== rival.position) faults.set(key, fault);
  }
  return faults;
};

/** Of two notes that need one pedal in two positions at once one is left out: that is one fault, whichever it is. */
const rivalKey = (need: Need, rival: Need): string =>
  `${need.letter} for ${[need.note.id, rival.note.id].sort().join(' and ')}`;

const unchanged = (markings: readonly SourceMarking[]): FixedMarkings => ({
  markings,
  origins: markings.map((_, index) => index),
});
