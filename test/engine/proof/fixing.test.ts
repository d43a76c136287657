import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Position } from '../../../engine/harp/setting.ts';
import type { Letter } from '../../../engine/music/pitch.ts';
import { compare, type Rational, rational } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { fixesOf } from '../../../engine/proof/choose-edits.ts';
import type { MarkingFix, ProofFinding } from '../../../engine/proof/model.ts';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import type { SourceMarking } from '../../../engine/score/model/markings.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { playMarkings } from '../../checker/play-markings.ts';
import type { PrintedMarking } from '../../checker/printed-markings.ts';
import { smallPart } from '../../part-builder.ts';
import { printPlan } from '../../printed-plan.ts';
import { cases } from '../../thorough.ts';

const NOWHERE = { start: 0, end: 0 };

const printAt = (at: Rational, bar: number, positions: SourceMarking['positions']): SourceMarking => ({
  at,
  bar,
  span: NOWHERE,
  form: 'words',
  positions,
  ahead: false,
  text: '',
});

const inOrder = (markings: readonly SourceMarking[]): SourceMarking[] =>
  markings.toSorted((a, b) => compare(a.at, b.at));

const withoutLetter = (marking: SourceMarking, letter: Letter): SourceMarking => {
  const { [letter]: _, ...positions } = marking.positions;
  return { ...marking, positions };
};

/** The markings with changes made together, whose indices are all of the markings as given. */
const fix = (markings: readonly SourceMarking[], changes: readonly MarkingFix[]): SourceMarking[] => {
  const old = [...markings];
  const more: SourceMarking[] = [];
  for (const change of changes) {
    if (change.kind === 'add')
      more.push(printAt(change.at, change.bar, { [change.letter]: change.position }));
    else if (change.kind === 'add-setting') old.push(printAt(change.at, change.bar, change.setting));
    else if (change.kind === 'alter') {
      const positions = { ...old[change.marking]!.positions, [change.letter]: change.position };
      old[change.marking] = { ...old[change.marking]!, positions };
    } else if (change.kind === 'remove-marking')
      old[change.marking] = { ...old[change.marking]!, positions: {} };
    else if (change.kind === 'move-marking') {
      old[change.marking] = { ...old[change.marking]!, at: change.at, bar: change.bar };
    } else {
      const marking = old[change.marking]!;
      const position = marking.positions[change.letter]!;
      old[change.marking] = withoutLetter(marking, change.letter);
      if (change.kind === 'move') more.push(printAt(change.at, change.bar, { [change.letter]: position }));
      if (change.kind === 'rename') {
        const { positions } = old[change.marking]!;
        old[change.marking] = { ...marking, positions: { ...positions, [change.to]: change.position } };
      }
    }
  }
  return inOrder([...old, ...more].filter(({ positions }) => Object.keys(positions).length > 0));
};

/** The markings with all that a finding proposes. */
const fixAll = (
  markings: readonly SourceMarking[],
  { fix: first, furtherFixes }: ProofFinding,
): SourceMarking[] => fix(markings, [...(first === null ? [] : [first]), ...furtherFixes]);

/** What is wrong: notes that the independent checker hears wrong, and feet and markings that the proof finds fault with. */
const faultsOf = (part: Score, markings: readonly SourceMarking[]): ReadonlySet<string> => {
  const printed = markings.map(({ bar, at, form, positions }): PrintedMarking => {
    const { onset } = part.bars[bar]!;
    const beat = 1 + at.num / at.den - onset.num / onset.den;
    return { kind: form, barIndex: bar, beat, positions: new Map(Object.entries(positions)) };
  });
  const missingNotes = playMarkings(part, printed).missingNotes.map(({ note, wanted, pass }) => [
    note,
    wanted,
    pass,
  ]);
  const others = proofreadScore({ ...part, markings })
    .findings.filter(({ code }) => code === 'change-too-quick' || code === 'markings-contradict')
    .map(({ code, bar, beat, sentence }) => [code, bar, beat.num, beat.den, sentence.slice(0, 40)]);
  return new Set([...missingNotes, ...others].map((fault) => fault.join(' ')));
};

const pitch = fc.constantFrom('C4', 'C#4', 'D4', 'D#4', 'Eb4', 'F4', 'F#4', 'G4', 'A4', 'Bb4', 'B4', 'B#3');
const bars = fc.array(fc.array(pitch, { minLength: 1, maxLength: 4 }), { minLength: 2, maxLength: 5 });

/** How a marking is spoilt: lost, one of its pedals put elsewhere, or the whole put earlier or later by some quarters. */
const spoil = fc.record({
  index: fc.nat(),
  how: fc.constantFrom('lose', 'alter', 'shift'),
  by: fc.constantFrom(-4, -2, -1, 1, 2, 4),
});

const spoilMarking = (
  part: Score,
  markings: readonly SourceMarking[],
  { index, how, by }: { index: number; how: string; by: number },
): readonly SourceMarking[] => {
  if (markings.length === 0) return markings;
  const i = index % markings.length;
  const marking = markings[i]!;
  if (how === 'lose') return markings.toSpliced(i, 1);
  if (how === 'alter') {
    const letters = Object.keys(marking.positions) as Letter[];
    const letter = letters[index % letters.length]!;
    const position = (((marking.positions[letter]! + 2 + (by > 0 ? 1 : 0)) % 3) - 1) as Position;
    return fix(markings, [{ kind: 'alter', marking: i, letter, position }]);
  }
  const quarters = Math.max(0, Math.min(marking.at.num / marking.at.den + by, part.bars.length * 4 - 1));
  const at = rational(Math.round(quarters * 48), 48);
  return inOrder(markings.with(i, { ...marking, at, bar: Math.floor(quarters / 4) }));
};

/** Fixes that are made one after the other before giving up. */
const MOST_FIXES = 12;

/** A part of bars of equal notes, its bars after the first played twice where it is repeated. */
const partOf = (names: readonly (readonly string[])[], repeated: boolean): Score => {
  const printed = names.map((_, i) => i);
  return smallPart({
    upper: names.map((bar) => bar.map((name) => `${name}/${4}:${bar.length}`).join(' ')).join(' | '),
    playOrder: repeated ? [...printed, ...printed.slice(1)] : printed,
  });
};

describe('the fixes that a proof proposes', () => {
  it('made one by one, leave nothing wrong, whichever marking was lost or spoilt', () => {
    let spoiltRuns = 0;
    fc.assert(
      fc.property(
        bars,
        fc.nat(),
        fc.constantFrom('lose', 'spoil'),
        fc.boolean(),
        (names, place, how, repeated) => {
          const part = partOf(names, repeated);
          const plan = planPedals(part);
          if (plan.findings.some((finding) => finding.severity === 'stop')) return;
          const whole = printPlan(part, planPedals(part));
          expect(proofreadScore({ ...part, markings: whole }).correct).toBe(true);
          const index = place % whole.length;
          const letter = Object.keys(whole[index]!.positions)[
            place % Object.keys(whole[index]!.positions).length
          ] as Letter;
          const wrong = (((whole[index]!.positions[letter]! + 2) % 3) - 1) as Position;
          let markings =
            how === 'lose'
              ? whole.toSpliced(index, 1)
              : fix(whole, [{ kind: 'alter', marking: index, letter, position: wrong }]);
          for (let i = 0; i < MOST_FIXES; i += 1) {
            const proof = proofreadScore({ ...part, markings });
            if (proof.correct || markings.length === 0) return;
            spoiltRuns += 1;
            const worst = proof.findings.find(
              (finding) => finding.severity !== 'note' && finding.fix !== null,
            );
            expect(worst).toBeDefined();
            markings = fixAll(markings, worst!);
          }
          expect(proofreadScore({ ...part, markings }).findings).toEqual([]);
        },
      ),
      { numRuns: cases(40) },
    );
    expect(spoiltRuns).toBeGreaterThan(cases(15));
  });

  it('add no fault, and rid of one, each with those it depends on', () => {
    let fixed = 0;
    fc.assert(
      fc.property(
        bars,
        fc.array(spoil, { minLength: 1, maxLength: 3 }),
        fc.boolean(),
        (names, spoils, repeated) => {
          const part = partOf(names, repeated);
          const markings = spoils.reduce<readonly SourceMarking[]>(
            (spoilt, each) => spoilMarking(part, spoilt, each),
            printPlan(part, planPedals(part)),
          );
          if (markings.length === 0) return;
          const before = faultsOf(part, markings);
          const isNew = (fault: string): boolean => !before.has(fault);
          const { findings, repair } = proofreadScore({ ...part, markings });
          for (const finding of findings) {
            if (finding.fix === null) continue;
            fixed += 1;
            const left = faultsOf(part, fixAll(markings, finding));
            expect([...left].filter(isNew)).toEqual([]);
            if (finding.severity !== 'note') expect(left.size).toBeLessThan(before.size);
          }
          for (const edit of repair.edits) {
            const together = [...edit.with.flatMap((index) => repair.edits[index]!.fixes), ...edit.fixes];
            expect([...faultsOf(part, fix(markings, together))].filter(isNew)).toEqual([]);
          }
          const some = repair.edits.map((_, index) => index).filter((index) => index % 2 === 0);
          const alone = faultsOf(part, fix(markings, fixesOf(repair.edits, some)));
          expect([...alone].filter(isNew)).toEqual([]);
          const all = repair.edits.flatMap(({ fixes }) => fixes);
          const left = faultsOf(part, fix(markings, all));
          expect([...left].filter(isNew)).toEqual([]);
          expect(left.size).toBe(repair.faultsLeft);
        },
      ),
      { numRuns: cases(50) },
    );
    expect(fixed).toBeGreaterThan(20);
  });
});
