import type { Letter } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import type { SourceMarking } from '../score/model/markings.ts';
import type { FixPlace, MarkingFix } from './model.ts';

/** Markings with changes made, and where each came from. */
export interface FixedMarkings {
  readonly markings: readonly SourceMarking[];
  /** For each marking its index before, or the fix that brought it. */
  readonly origins: readonly (number | MarkingFix)[];
}

/**
 * The markings as they would be with some changes made together. All indices are of the markings as given; a marking
 * that states nothing more is left out, and a new one stands behind those of its moment.
 */
export const applyFixes = (
  markings: readonly SourceMarking[],
  fixes: readonly MarkingFix[],
): FixedMarkings => {
  const altered = [...markings];
  const setting: [SourceMarking, MarkingFix][] = [];
  const added: [SourceMarking, MarkingFix][] = [];
  for (const fix of inOrder(fixes)) {
    switch (fix.kind) {
      case 'add':
        added.push([printAt(fix, { [fix.letter]: fix.position }), fix]);
        break;
      case 'add-setting':
        setting.push([printAt(fix, fix.setting), fix]);
        break;
      case 'alter': {
        const old = altered[fix.marking]!;
        const positions = { ...old.positions, [fix.letter]: fix.position };
        altered[fix.marking] = { ...old, positions };
        break;
      }
      case 'rename': {
        const old = withoutLetter(altered[fix.marking]!, fix.letter);
        altered[fix.marking] = { ...old, positions: { ...old.positions, [fix.to]: fix.position } };
        break;
      }
      case 'move':
        added.push([printAt(fix, { [fix.letter]: altered[fix.marking]!.positions[fix.letter]! }), fix]);
        altered[fix.marking] = withoutLetter(altered[fix.marking]!, fix.letter);
        break;
      case 'move-marking': {
        const { at, bar } = fix;
        setting.push([{ ...altered[fix.marking]!, at, bar }, fix]);
        altered[fix.marking] = { ...altered[fix.marking]!, positions: {} };
        break;
      }
      case 'remove-marking':
        altered[fix.marking] = { ...altered[fix.marking]!, positions: {} };
        break;
      case 'remove':
        altered[fix.marking] = withoutLetter(altered[fix.marking]!, fix.letter);
        break;
    }
  }
  const all: (readonly [SourceMarking, number | MarkingFix])[] = [
    ...setting,
    ...altered.map((marking, index) => [marking, index] as const),
    ...added,
  ];
  const kept = all
    .filter(([{ positions }]) => Object.keys(positions).length > 0)
    .sort(([a], [b]) => compare(a.at, b.at));
  return { markings: kept.map(([marking]) => marking), origins: kept.map(([, origin]) => origin) };
};

/** What a marking says is changed before it goes elsewhere as a whole. */
const inOrder = (fixes: readonly MarkingFix[]): readonly MarkingFix[] => [
  ...fixes.filter(({ kind }) => kind !== 'move-marking'),
  ...fixes.filter(({ kind }) => kind === 'move-marking'),
];

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
