import type { Letter } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import type { SourceMarking } from '../score/model.ts';
import type { FixPlace, MarkingFix } from './model.ts';

/**
 * The markings as they would be with some changes made together. All indices are of the markings as given; a marking
 * that states nothing more is left out, and a new one stands behind those of its moment.
 */
export const applyFixes = (
  markings: readonly SourceMarking[],
  fixes: readonly MarkingFix[],
): readonly SourceMarking[] => {
  const altered = [...markings];
  const setting: SourceMarking[] = [];
  const added: SourceMarking[] = [];
  for (const fix of fixes) {
    switch (fix.kind) {
      case 'add':
        added.push(printAt(fix, { [fix.letter]: fix.position }));
        break;
      case 'add-setting':
        setting.push(printAt(fix, fix.setting));
        break;
      case 'alter': {
        const old = altered[fix.marking]!;
        const positions = { ...old.positions, [fix.letter]: fix.position };
        altered[fix.marking] = { ...old, positions };
        break;
      }
      case 'move':
        added.push(printAt(fix, { [fix.letter]: altered[fix.marking]!.positions[fix.letter]! }));
        altered[fix.marking] = withoutLetter(altered[fix.marking]!, fix.letter);
        break;
      case 'remove':
        altered[fix.marking] = withoutLetter(altered[fix.marking]!, fix.letter);
        break;
    }
  }
  return [...setting, ...altered, ...added]
    .filter(({ positions }) => Object.keys(positions).length > 0)
    .sort((a, b) => compare(a.at, b.at));
};

const withoutLetter = (marking: SourceMarking, letter: Letter): SourceMarking => {
  const { [letter]: _, ...positions } = marking.positions;
  return { ...marking, positions };
};

const printAt = ({ at, bar }: FixPlace, positions: SourceMarking['positions']): SourceMarking => ({
  at,
  bar,
  span: { start: 0, end: 0 },
  form: 'words',
  positions,
  ahead: false,
  text: '',
});
