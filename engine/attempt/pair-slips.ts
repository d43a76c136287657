import { isSetting, type Position } from '../harp/setting.ts';
import { LETTERS, type Letter, pitchClass } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import type { Plan } from '../pedals/model.ts';
import type { MarkingPlayback } from '../proof/marking-playback.ts';
import type { MarkingFix } from '../proof/model.ts';
import type { Score } from '../score/model/score.ts';
import { placeAt } from './judged-change.ts';
import type { StatedPedal, WrongSound } from './model.ts';
import type { RepairedPart } from './repaired-part.ts';
import type { FailureSearch } from './wrong-sounds.ts';

/** What a pupil has written, how it goes, and how it would go with some fixes made. */
export interface Slips {
  readonly score: Score;
  readonly plan: Plan;
  readonly playback: MarkingPlayback;
  readonly failures: FailureSearch;
  readonly repair: (fixes: readonly MarkingFix[]) => RepairedPart;
}

type Fixes = readonly MarkingFix[];
/** Other ways of one of the fixes, the best first. */
type Step = (fix: MarkingFix, fixes: Fixes, slips: Slips) => readonly Fixes[];

type Of<Kind extends MarkingFix['kind']> = Extract<MarkingFix, { readonly kind: Kind }>;

/** A pedal of a marking. */
interface Statement extends StatedPedal {
  readonly marking: number;
}

/**
 * The fixes as a teacher would pair them with what the pupil has written. The fewest edits make use of a wrong name for
 * whatever is missing; a teacher takes it for the change that its own moment asks for. No note is lost by it.
 */
export const pairSlips = (made: Fixes, slips: Slips): Fixes => {
  const lost = slips.repair(made).playback.needFaults;
  const isAsGood = (fixes: Fixes): boolean =>
    [...slips.repair(fixes).playback.needFaults.keys()].every((key) => lost.has(key));
  return [leaveUnheard, takeNearest, moveLate].reduce(
    (before, step) =>
      before.reduce(
        (now, fix) => (now.includes(fix) ? step(fix, now, slips).find(isAsGood) : undefined) ?? now,
        before,
      ),
    made,
  );
};

const without = (fixes: Fixes, ...out: Fixes): Fixes => fixes.filter((each) => !out.includes(each));

/** A name that spoils no note is not wrong for another that no note has missed so far: that one follows from a correction. */
const leaveUnheard: Step = (rename, fixes, { score, failures }) => {
  if (rename.kind !== 'rename') return [];
  const { marking, letter, to, position } = rename;
  const { bar, at } = score.markings[marking]!;
  const isHeard =
    failures.blamedOn(marking, letter).length > 0 ||
    failures.wanting({ letter: to, position, from: at }).length > 0;
  if (isHeard) return [];
  return [[...without(fixes, rename), { kind: 'add', letter: to, position, ...placeAt(score, bar, at) }]];
};

/** A wrong name stands for the first change that is missing after it; what the repair has made of it is added instead. */
const takeNearest: Step = (addition, fixes, slips) => {
  if (addition.kind !== 'add') return [];
  const { letter: to, position, at } = addition;
  const [first] = slips.failures.wanting({ letter: to, position, from: at });
  if (first === undefined) return [];
  return listMisnamed(fixes, slips, addition, first).map(({ marking, letter }): Fixes => {
    const own = fixes.filter((fix) => isOf(fix, marking, letter));
    const displaced = own.filter((fix) => fix.kind === 'rename').map((fix) => addBefore(fix, slips));
    const meant: MarkingFix = { kind: 'rename', marking, letter, to, position };
    return [...without(fixes, addition, ...own), meant, ...displaced];
  });
};

const isOf = (fix: MarkingFix, marking: number, letter: Letter): boolean =>
  'marking' in fix && fix.marking === marking && (!('letter' in fix) || fix.letter === letter);

/** Names near before the note that are struck out, that do nothing for any, or that the repair keeps for a later note. */
const listMisnamed = (
  fixes: Fixes,
  { score, playback, failures }: Slips,
  wanted: StatedPedal,
  first: WrongSound,
): readonly Statement[] =>
  statements(score)
    .filter((said) => {
      const { at, bar } = score.markings[said.marking]!;
      return (
        isMistaken(said, wanted) &&
        compare(at, first.place.at) <= 0 &&
        first.place.bar - bar <= 1 &&
        playback.effectOf(said.marking, said.letter).changed > 0 &&
        fixes
          .filter((fix) => isOf(fix, said.marking, said.letter))
          .every((fix) => {
            if (fix.kind !== 'rename') return fix.kind === 'remove';
            const [later] = failures.wanting({ letter: fix.to, position: fix.position, from: at });
            return later !== undefined && compare(first.place.at, later.place.at) < 0;
          })
      );
    })
    .toReversed();

/** Every name of the markings that are no full settings. */
const statements = ({ markings }: Score): readonly Statement[] =>
  markings.flatMap(({ positions }, marking) =>
    isSetting(positions)
      ? []
      : LETTERS.flatMap((letter) => {
          const position: Position | undefined = positions[letter];
          return position === undefined ? [] : [{ marking, letter, position }];
        }),
  );

/** Another letter with the same sign, or another name of the same sound. */
const isMistaken = (said: StatedPedal, wanted: StatedPedal): boolean =>
  said.letter !== wanted.letter &&
  ((said.position === wanted.position && said.position !== 0) || isSameSound(said, wanted));

const isSameSound = (a: StatedPedal, b: StatedPedal): boolean => soundOf(a) === soundOf(b);

const soundOf = ({ letter, position }: StatedPedal): number => pitchClass({ letter, alter: position });

/** Where the plan has it, or just before its first note. */
const addBefore = (
  { marking, to: letter, position }: Of<'rename'>,
  { score, plan, failures }: Slips,
): MarkingFix => {
  const from = score.markings[marking]!;
  const [first] = failures.wanting({ letter, position, from: from.at });
  const planned = plan.moves.findLast(
    (move) =>
      move.letter === letter &&
      move.to === position &&
      compare(move.at, from.at) >= 0 &&
      first !== undefined &&
      compare(move.at, first.place.at) <= 0,
  );
  const { bar, at } = planned ?? first?.place ?? from;
  return { kind: 'add', letter, position, ...placeAt(score, bar, at) };
};

/** A change that comes after its note, within a bar, is moved, where the repair writes it again and leaves it standing. */
const moveLate: Step = (addition, fixes, { score, playback }) => {
  if (addition.kind !== 'add') return [];
  const { letter, position, at, bar, beat } = addition;
  const next = statements(score).find(
    (said) => said.letter === letter && compare(score.markings[said.marking]!.at, at) > 0,
  );
  if (next === undefined || next.position !== position) return [];
  const { marking } = next;
  const isLate = score.markings[marking]!.bar - bar <= 1 && playback.effectOf(marking, letter).changed > 0;
  if (!isLate || fixes.some((fix) => 'marking' in fix && fix.marking === marking)) return [];
  return [[...without(fixes, addition), { kind: 'move', marking, letter, at, bar, beat }]];
};
