import type { LeverAt } from '../harp/lever-name.ts';
import { type OpenTuning, openAlter } from '../harp/open-tuning.ts';
import type { HarpString } from '../harp/profile.ts';
import { isPosition } from '../harp/setting.ts';
import type { LeverPlan } from '../levers/model.ts';
import { stepOf } from '../music/pitch.ts';
import { equals, type Rational } from '../music/rational.ts';
import { type LeverUnease, listUneasyLevers } from '../proof/levers/lever-comfort.ts';
import { alterWith, type LeverGroup } from '../proof/levers/lever-edits.ts';
import type { LeverFix, WrittenLeverFix } from '../proof/levers/model.ts';
import { bringsBack, listRedundantStatements } from '../proof/levers/needless-levers.ts';
import type { LeverRepairInput } from '../proof/levers/repair-levers.ts';
import type { StatedLevers } from '../proof/levers/stated-levers.ts';
import type { StringPart } from '../proof/levers/string-parts.ts';
import type { Score } from '../score/model/score.ts';
import type { Correction, JudgedChange, Needless, WrongSound } from './model.ts';
import { findNeedless } from './needless-changes.ts';
import { keyOf, playRepaired, type RepairedPart } from './repaired-part.ts';
import { type FailureSearch, joinSounds, searchFailures } from './wrong-sounds.ts';

/** What is known of one string at one text. */
export interface JudgedString {
  readonly isWrong: boolean;
  readonly fix: LeverFix | null;
  readonly sounds: readonly WrongSound[];
  readonly tooQuick: boolean;
  readonly better: JudgedChange['better'];
  readonly needless: JudgedChange['needless'];
  readonly hasChanged: boolean;
}

/** Everything that texts about levers are judged by; texts are indices into the score's `leverWords`. */
export interface LeverJudgement {
  readonly score: Score;
  readonly tuning: OpenTuning;
  readonly stated: StatedLevers;
  readonly ofString: (marking: number, step: number) => JudgedString;
  /** The notes that a text spoils on a string. */
  readonly blamedOn: (marking: number, step: number) => readonly WrongSound[];
  /** The first note from a time on that goes wrong for want of a lever. */
  readonly wanting: (string: HarpString, alter: number, from: Rational) => readonly WrongSound[];
  readonly correctionOf: (fix: LeverFix) => Correction<LeverAt>;
}

/** One string as its part is played, and as it goes once all is put right. */
interface PlayedString {
  readonly part: StringPart;
  readonly repaired: RepairedPart;
  readonly needless: ReadonlyMap<string, Needless>;
  readonly failures: FailureSearch;
}

export const startJudgement = (
  played: LeverRepairInput,
  groups: readonly LeverGroup[],
  plan: LeverPlan,
): LeverJudgement => {
  const { context, tuning, stated, parts, trials } = played;
  const { score } = context;
  const strings = playStrings(parts, groups, plan, tuning);
  const repairedSteps = new Set(groups.flatMap(({ views }) => views.map(({ step }) => step)));
  const fixes = fixesByText(groups);
  const tooQuick = new Set(
    trials.after([]).troubles.map(({ step, task }) => textKey(task.marking - 1, step)),
  );
  const uneasy = easierByText(listUneasyLevers(played, () => plan));
  const blamedOn: LeverJudgement['blamedOn'] = (marking, step) => {
    const own = strings.get(step);
    return own === undefined ? [] : own.failures.blamedOn(marking + 1, own.part.string.letter);
  };
  const wanting: LeverJudgement['wanting'] = (string, alter, from) => {
    const position = alter - openAlter(tuning, string);
    const own = strings.get(stepOf(string));
    if (own === undefined || !isPosition(position)) return [];
    return own.failures.wanting({ letter: string.letter, position, from });
  };
  const ofString = (marking: number, step: number): JudgedString => {
    const { part, repaired, needless } = strings.get(step)!;
    const { letter } = part.string;
    const key = textKey(marking, step);
    const fix = fixes.get(key) ?? null;
    const blamed = blamedOn(marking, step);
    const served = fix === null ? null : wantedBy(fix, score);
    return {
      isWrong: fix !== null || (blamed.length > 0 && !repairedSteps.has(step)),
      fix,
      sounds: joinSounds(blamed, served === null ? [] : wanting(served.string, served.alter, served.from)),
      tooQuick: tooQuick.has(key),
      better: uneasy.get(key) ?? null,
      needless:
        fix === null || fix.kind === 'remove' ? (needless.get(keyOf(marking + 1, letter)) ?? null) : null,
      hasChanged: repaired.hasChanged(marking + 1, letter),
    };
  };
  const correctionOf = (fix: LeverFix) => correctionBy(fix, played);
  return { score, tuning, stated, ofString, blamedOn, wanting, correctionOf };
};

/** What the repair does with each string of a text. */
const fixesByText = (groups: readonly LeverGroup[]): ReadonlyMap<string, LeverFix> =>
  new Map(
    groups.flatMap((each) =>
      each.fixes.flatMap((fix) =>
        fix.kind === 'add' ? [] : [[textKey(fix.marking, stepOf(fix.string)), fix] as const],
      ),
    ),
  );

/** Easier places, and why they are. */
const easierByText = (
  uneasy: readonly LeverUnease[],
): ReadonlyMap<string, NonNullable<JudgedChange['better']>> =>
  new Map(
    uneasy.flatMap(({ fix, why }) =>
      fix.kind === 'move'
        ? [[textKey(fix.marking, stepOf(fix.string)), { to: placeOf(fix), why }] as const]
        : [],
    ),
  );

const textKey = (marking: number, step: number): string => `${marking} ${step}`;

const playStrings = (
  parts: readonly StringPart[],
  groups: readonly LeverGroup[],
  plan: LeverPlan,
  tuning: OpenTuning,
): ReadonlyMap<number, PlayedString> =>
  new Map(
    parts.map((part) => {
      const isRepeated = new Set(part.score.playOrder).size < part.score.playOrder.length;
      const made = groups.flatMap(({ views }) =>
        views.filter(({ step }) => step === part.step).flatMap(({ fixes }) => fixes),
      );
      const repaired = playRepaired(part.score, part.events, made, 'foot');
      const { string } = part;
      const needless = findNeedless(part.score, part.played, {
        repaired,
        part: part.events,
        marksAt: 'foot',
        redundant: listRedundantStatements({ string, score: repaired.score, played: repaired.playback }),
        letters: [string.letter],
        isExempt: (marking) =>
          marking === 0 || (isRepeated && bringsBack({ string, score: repaired.score }, marking)),
      });
      const failures = searchFailures(part.score, part.played, plan, (string, stands) => ({
        ...string,
        alter: alterWith(tuning, string, stands),
      }));
      return [part.step, { part, repaired, needless, failures }];
    }),
  );

/** What a fix wants a string to give, and from when on; null where it only takes something out. */
const wantedBy = (
  fix: LeverFix,
  { leverWords }: Score,
): { readonly string: HarpString; readonly alter: number; readonly from: Rational } | null => {
  switch (fix.kind) {
    case 'add':
    case 'move':
      return { string: fix.string, alter: fix.alter, from: fix.at };
    case 'rename':
      return { string: fix.to, alter: fix.alter, from: leverWords[fix.marking]!.at };
    default:
      return null;
  }
};

const correctionBy = (fix: LeverFix, played: LeverRepairInput): Correction<LeverAt> => {
  switch (fix.kind) {
    case 'add':
    case 'alter':
      return { kind: 'write', stated: [{ string: fix.string, alter: fix.alter }] };
    case 'rename':
      return { kind: 'write', stated: [{ string: fix.to, alter: fix.alter }] };
    case 'move':
      return { kind: 'move', to: placeOf(fix) };
    case 'remove':
      return { kind: 'strike', against: contradicted(fix, played) };
  }
};

/** What the other texts of that moment say of this lever, where it is not the same. */
const contradicted = (
  { marking, string }: WrittenLeverFix,
  { context, stated: { said }, tuning }: LeverRepairInput,
): readonly LeverAt[] => {
  const step = stepOf(string);
  const { leverWords } = context.score;
  const own = said[marking]!.get(step)?.place;
  const others = said.flatMap((each, other) => {
    const place = each.get(step)?.place;
    const isHere = other !== marking && equals(leverWords[other]!.at, leverWords[marking]!.at);
    return isHere && place !== undefined && place !== own ? [place] : [];
  });
  return [...new Set(others)].map((place) => ({ string, alter: alterWith(tuning, string, place) }));
};

const placeOf = ({ at, bar, beat }: LeverFix & { readonly kind: 'move' | 'add' }) => ({ at, bar, beat });
