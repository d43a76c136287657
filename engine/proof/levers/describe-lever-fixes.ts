import type { HarpString } from '../../harp/profile.ts';
import { accidentalSign } from '../../music/accidental.ts';
import { rationalKey } from '../../music/rational.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { Score } from '../../score/model/score.ts';
import { quoteWords } from '../../score/words/pedal-words.ts';
import { listNames } from '../../words/lists.ts';
import { describePlace } from '../describe-fixes.ts';
import type { LeverFix } from './model.ts';

/** What a string gives, as a change of its lever is written: `F♯4`. */
export const nameLever = ({ letter, octave }: HarpString, alter: number): string =>
  `${letter}${accidentalSign(alter)}${octave}`;

/** Changes to be made together as one sentence; empty for none. */
export const describeLeverFixes = (score: Score, fixes: readonly LeverFix[]): string => {
  const groups = new Map<string, [LeverFix, ...LeverFix[]]>();
  for (const fix of fixes) {
    const key = keyOf(fix);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, [fix]);
    else known.push(fix);
  }
  const sentence = [...groups.values()].map((together) => describeTogether(score, together)).join(', and ');
  return sentence === '' ? '' : `${sentence.slice(0, 1).toUpperCase()}${sentence.slice(1)}.`;
};

const keyOf = (fix: LeverFix): string => {
  const at = 'at' in fix ? rationalKey(fix.at) : '';
  const marking = 'marking' in fix ? fix.marking : '';
  const string =
    fix.kind === 'alter' || fix.kind === 'rename' ? `${fix.string.letter}${fix.string.octave}` : '';
  return `${fix.kind} ${marking} ${at} ${string}`;
};

const describeTogether = (score: Score, fixes: readonly [LeverFix, ...LeverFix[]]): string => {
  const [fix] = fixes;
  const names = listNames(
    fixes.map((each) =>
      'alter' in each
        ? nameLever(each.kind === 'rename' ? each.to : each.string, each.alter)
        : nameString(each.string),
    ),
  );
  switch (fix.kind) {
    case 'add':
      return `add ${names} at ${describePlace(score, fix)}`;
    case 'alter':
      return `print ${names} in ${nameText(score, fix.marking)}`;
    case 'rename':
      return `print ${names} instead of ${nameString(fix.string)} in ${nameText(score, fix.marking)}`;
    case 'move':
      return `move ${names} from ${nameText(score, fix.marking)} to ${describePlace(score, fix)}`;
    case 'remove':
      return `take ${names} out of ${nameText(score, fix.marking)}`;
  }
};

const nameString = ({ letter, octave }: HarpString): string => `${letter}${octave}`;

const nameText = (score: Score, marking: number): string => {
  const { form, text } = score.leverWords[marking]!;
  const place = placeOfLeverWords(score, marking);
  return form === 'note' ? `the small note ${text} at ${place}` : `“${quoteWords(text)}” at ${place}`;
};

export const placeOfLeverWords = (score: Score, marking: number): string => {
  const { bar, at } = score.leverWords[marking]!;
  return describePlace(score, { bar, at, beat: beatAt(score.bars[bar]!, at) });
};
