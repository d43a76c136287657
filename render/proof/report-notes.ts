import {
  add,
  beatAt,
  beatOffset,
  describeFixes,
  formatBeat,
  type Letter,
  type MarkingFix,
  type Position,
  type Proof,
  type Rational,
  rationalKey,
  type Score,
} from '../../engine/index.ts';
import type { Drawing } from '../draw/drawing.ts';
import type { RowItem } from '../draw/name-items.ts';
import { drawPlaceNumber } from '../draw/place-number.ts';
import { drawingGroup } from '../draw/svg-groups.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { ALL_STAVES, type SpaceRow } from '../layout/spaces/reserve-spaces.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import { drawPrinted } from '../markings/printed-markings.ts';
import { STANDS_OVER } from '../markings/standing.ts';
import { statedMarking } from '../markings/stated-marking.ts';
import type { ClosingSection } from '../pages/closing-notes.ts';
import type { PageNotes } from '../pages/engrave-pages.ts';
import type { SpaceDrawing } from '../pages/finish-system.ts';
import { ownElements } from '../source/our-markings.ts';
import { drawFix, itemsOfFix } from './draw-fix.ts';

type ProofFinding = Proof['findings'][number];

/** A finding with its number on the page: those of one place share it. */
interface Numbered {
  readonly finding: ProofFinding;
  readonly number: number;
  readonly at: Rational;
}

/**
 * What a proof has to say about a part, to be drawn on its pages: each fault's number over its place, each edit beside
 * the markings of the file, and all in words after the last line.
 */
export const proofNotes = (score: Score, proof: Proof, engraving: EngravingOptions): PageNotes => {
  const numbered = numberFindings(score, proof.findings);
  return {
    drawings: [
      ...drawFileMarkings(score, engraving),
      ...drawNumbers(numbered),
      ...drawEdits(score, proof, numbered, engraving),
    ],
    sections: [listFindings(score, numbered), listEdits(score, proof)],
  };
};

const numberFindings = (score: Score, findings: readonly ProofFinding[]): readonly Numbered[] => {
  const numbers = new Map<string, number>();
  return findings.map((finding) => {
    const bar = score.bars[finding.bar]!;
    const at = add(bar.onset, beatOffset(bar.meter, finding.beat));
    const key = rationalKey(at);
    const number = numbers.get(key) ?? numbers.size + 1;
    numbers.set(key, number);
    return { finding, number, at };
  });
};

const drawNumbers = (numbered: readonly Numbered[]): readonly SpaceDrawing[] => {
  const drawn = new Set<number>();
  return numbered.flatMap(({ number, at, finding }) => {
    if (drawn.has(number)) return [];
    drawn.add(number);
    const told = numbered.filter((each) => each.number === number).map((each) => each.finding.sentence);
    const id = `fault-${number}`;
    return [
      spaceOf(
        { id, at, bar: finding.bar, line: 'flags' },
        'proof-fault',
        told.join(' '),
        drawPlaceNumber(number),
      ),
    ];
  });
};

const spaceOf = (
  {
    id,
    at,
    bar,
    line,
  }: { readonly id: string; readonly at: Rational; readonly bar: number; readonly line: SpaceRow },
  kind: string,
  title: string,
  art: Drawing,
): SpaceDrawing => ({
  id,
  at,
  bar,
  graceNote: null,
  ...STANDS_OVER,
  line,
  staves: ALL_STAVES,
  box: art.box,
  draw: (place) => drawingGroup(`id="${id}" class="${kind}"`, title, art, place),
});

/** The fixes that are made together as one edit, and those of findings that are no part of the repair. */
const listGroups = ({ repair, findings }: Proof): readonly (readonly MarkingFix[])[] => {
  const edits = repair.edits.map(({ fixes }) => fixes);
  const made = new Set(edits.flat());
  const others = findings
    .map(({ fix, furtherFixes }) => [...(fix === null ? [] : [fix]), ...furtherFixes])
    .filter((fixes) => fixes.length > 0 && !fixes.some((fix) => made.has(fix)));
  return [...edits, ...others];
};

const drawEdits = (
  score: Score,
  proof: Proof,
  numbered: readonly Numbered[],
  { naming }: EngravingOptions,
): readonly SpaceDrawing[] =>
  listGroups(proof).flatMap((fixes, index) => {
    const numbers = numbersFor(fixes, numbered);
    const byPlace = new Map<string, { at: Rational; bar: number; items: RowItem[] }>();
    for (const fix of fixes) {
      for (const { side, items } of itemsOfFix(fix, score)) {
        const { at, bar } = side === 'here' && 'at' in fix ? fix : markingPlace(score, fix);
        const known = byPlace.get(rationalKey(at));
        // Names that are written or struck out together have one sign.
        if (known === undefined) byPlace.set(rationalKey(at), { at, bar, items: [...items] });
        else known.items.push(...(fix.kind === 'alter' || fix.kind === 'rename' ? items : items.slice(1)));
      }
    }
    return [...byPlace.values()].map(({ at, bar, items }, part) =>
      spaceOf(
        { id: `edit-${index + 1}-${part + 1}`, at, bar, line: 'markings' },
        'proof-edit',
        describeFixes(score, fixes),
        drawFix(items, numbers, naming),
      ),
    );
  });

const numbersFor = (fixes: readonly MarkingFix[], numbered: readonly Numbered[]): readonly number[] => {
  const made = new Set(fixes);
  const own = numbered.filter(({ finding: { fix, furtherFixes } }) =>
    [fix, ...furtherFixes].some((each) => each !== null && made.has(each)),
  );
  return [...new Set(own.map(({ number }) => number))].slice(0, MOST_NUMBERS);
};

/** An edit that puts right many faults names the first of them. */
const MOST_NUMBERS = 3;

const markingPlace = (score: Score, fix: MarkingFix): { readonly at: Rational; readonly bar: number } =>
  'marking' in fix ? score.markings[fix.marking]! : fix;

/** The markings of the file that the layout does not draw: diagrams, and those of an earlier annotation. */
export const drawFileMarkings = (score: Score, engraving: EngravingOptions): readonly SpaceDrawing[] => {
  const own = new Set(ownElements(score).map(({ span }) => span.start));
  return score.markings.flatMap((marking, index) => {
    if (marking.form !== 'harp-pedals' && !own.has(marking.span.start)) return [];
    const { at, bar, positions } = marking;
    const place = { id: `own-${index + 1}`, at, bar, beat: beatAt(score.bars[bar]!, at) };
    const printed = statedMarking(place, Object.entries(positions) as [Letter, Position][]);
    return [
      spaceOf(
        { id: place.id, at, bar, line: 'markings' },
        'proof-marking',
        'In the file',
        drawPrinted(printed, engraving),
      ),
    ];
  });
};

const listFindings = (score: Score, numbered: readonly Numbered[]): ClosingSection => ({
  heading: numbered.length === 0 ? 'Nothing is wrong' : 'Faults, and how to put them right',
  notes:
    numbered.length === 0
      ? [{ art: null, text: 'Every note finds its pedal, and the feet have time.' }]
      : numbered.map(({ finding, number }) => ({
          art: drawPlaceNumber(number),
          text: `Bar ${printedBarNumber(score.bars[finding.bar]!.number)}, beat ${formatBeat(finding.beat)}: ${[finding.sentence, ...finding.suggestions].join(' ')}`,
        })),
});

const listEdits = (score: Score, { repair }: Proof): ClosingSection => ({
  heading: 'All edits together',
  notes: repair.edits.map(({ fixes }) => ({ art: null, text: describeFixes(score, fixes) })),
});
