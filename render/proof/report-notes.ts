import {
  add,
  beatAt,
  beatOffset,
  describeFixes,
  describeLeverFixes,
  formatBeat,
  type HarpKind,
  type Letter,
  type LeverFix,
  type LeverProof,
  type MarkingFix,
  nameBarIn,
  type Position,
  type Proof,
  type Rational,
  rationalKey,
  type Score,
} from '../../engine/index.ts';
import { drawRows } from '../draw/draw-rows.ts';
import type { Drawing } from '../draw/drawing.ts';
import type { RowItem } from '../draw/name-items.ts';
import { drawPlaceNumber } from '../draw/place-number.ts';
import { drawingGroup } from '../draw/svg-groups.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { ALL_STAVES, type SpaceRow } from '../layout/spaces/reserve-spaces.ts';
import { drawPrinted } from '../markings/printed-markings.ts';
import { STANDS_OVER } from '../markings/standing.ts';
import { statedMarking } from '../markings/stated-marking.ts';
import type { PageNotes } from '../pages/drawn-score.ts';
import type { SpaceDrawing } from '../pages/finish-system.ts';
import type { ClosingSection } from '../pages/words/closing-notes.ts';
import { ownElements } from '../source/our-markings.ts';
import { wordsOf } from '../words/words.ts';
import { type DrawnFix, drawFix, itemsOfFix, itemsOfLeverFix } from './draw-fix.ts';
import { type ProofTelling, proofTelling } from './tell-proof.ts';

/** What the proofs of both harps have in common: `Fix` is a change to a marking. */
interface AnyProof<Fix> {
  readonly kind: HarpKind;
  readonly findings: readonly ProofFinding<Fix>[];
  readonly repair: { readonly edits: readonly { readonly fixes: readonly Fix[] }[] };
}

type ProofFinding<Fix> = Omit<Proof['findings'][number], 'fix' | 'furtherFixes'> & {
  readonly fix: Fix | null;
  readonly furtherFixes: readonly Fix[];
};

/** How the changes to the markings of one harp are told and drawn. */
interface FixTelling<Fix> {
  readonly describe: (fixes: readonly Fix[]) => string;
  readonly items: (fix: Fix) => readonly DrawnFix[];
  /** Where what it changes stands, for what it takes away, and where it puts something. */
  readonly from: (fix: Fix) => Place;
  readonly here: (fix: Fix) => Place;
  /** Names that are written or struck out together have one sign; a name that is corrected has its own. */
  readonly isCorrection: (fix: Fix) => boolean;
}

interface Place {
  readonly at: Rational;
  readonly bar: number;
}

/** A finding with its number on the page: those of one place share it. */
interface Numbered<Fix> {
  readonly finding: ProofFinding<Fix>;
  readonly number: number;
  readonly at: Rational;
}

/**
 * What a proof has to say about a part, to be drawn on its pages: each fault's number over its place, each edit beside
 * the markings of the file, and all in words after the last line.
 */
export const proofNotes = (
  score: Score,
  proof: Proof | LeverProof,
  engraving: EngravingOptions,
): PageNotes => {
  const telling = proofTelling(engraving);
  return proof.kind === 'pedal'
    ? notesOf(score, proof, pedalFixes(score, telling), drawFileMarkings(score, engraving), telling)
    : notesOf(score, proof, leverFixes(score, telling), drawOwnLeverWords(score, engraving), telling);
};

const notesOf = <Fix>(
  score: Score,
  proof: AnyProof<Fix>,
  fixes: FixTelling<Fix>,
  own: readonly SpaceDrawing[],
  telling: ProofTelling,
): PageNotes => {
  const numbered = numberFindings(score, proof.findings);
  return {
    drawings: [
      ...own,
      ...drawNumbers(numbered, telling),
      ...drawEdits(proof, numbered, fixes, telling.naming),
    ],
    sections: [listFindings(score, proof.kind, numbered, fixes, telling), listEdits(proof, fixes, telling)],
  };
};

const pedalFixes = (score: Score, telling: ProofTelling): FixTelling<MarkingFix> => {
  const from = (fix: MarkingFix): Place => ('marking' in fix ? score.markings[fix.marking]! : fix);
  return {
    describe: (fixes) => describeFixes(score, fixes, telling.fixes),
    items: (fix) => itemsOfFix(fix, score),
    from,
    here: (fix) => ('at' in fix ? fix : from(fix)),
    isCorrection: ({ kind }) => kind === 'alter' || kind === 'rename',
  };
};

const leverFixes = (score: Score, telling: ProofTelling): FixTelling<LeverFix> => {
  const from = (fix: LeverFix): Place => (fix.kind === 'add' ? fix : score.leverWords[fix.marking]!);
  return {
    describe: (fixes) => describeLeverFixes(score, fixes, telling.leverFixes),
    items: itemsOfLeverFix,
    from,
    here: (fix) => ('at' in fix ? fix : from(fix)),
    isCorrection: ({ kind }) => kind === 'alter' || kind === 'rename',
  };
};

const numberFindings = <Fix>(
  score: Score,
  findings: readonly ProofFinding<Fix>[],
): readonly Numbered<Fix>[] => {
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

const drawNumbers = <Fix>(
  numbered: readonly Numbered<Fix>[],
  telling: ProofTelling,
): readonly SpaceDrawing[] => {
  const drawn = new Set<number>();
  return numbered.flatMap(({ number, at, finding }) => {
    if (drawn.has(number)) return [];
    drawn.add(number);
    const told = numbered
      .filter((each) => each.number === number)
      .map((each) => telling.finding(each.finding));
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
const listGroups = <Fix>({ repair, findings }: AnyProof<Fix>): readonly (readonly Fix[])[] => {
  const edits = repair.edits.map(({ fixes }) => fixes);
  const made = new Set(edits.flat());
  const others = findings
    .map(({ fix, furtherFixes }) => [...(fix === null ? [] : [fix]), ...furtherFixes])
    .filter((fixes) => fixes.length > 0 && !fixes.some((fix) => made.has(fix)));
  return [...edits, ...others];
};

const drawEdits = <Fix>(
  proof: AnyProof<Fix>,
  numbered: readonly Numbered<Fix>[],
  telling: FixTelling<Fix>,
  naming: EngravingOptions['naming'],
): readonly SpaceDrawing[] =>
  listGroups(proof).flatMap((fixes, index) => {
    const numbers = numbersFor(fixes, numbered);
    const byPlace = new Map<string, { at: Rational; bar: number; items: RowItem[] }>();
    for (const fix of fixes) {
      for (const { side, items } of telling.items(fix)) {
        const { at, bar } = side === 'here' ? telling.here(fix) : telling.from(fix);
        const known = byPlace.get(rationalKey(at));
        // Names that are written or struck out together have one sign.
        if (known === undefined) byPlace.set(rationalKey(at), { at, bar, items: [...items] });
        else known.items.push(...(telling.isCorrection(fix) ? items : items.slice(1)));
      }
    }
    return [...byPlace.values()].map(({ at, bar, items }, part) =>
      spaceOf(
        { id: `edit-${index + 1}-${part + 1}`, at, bar, line: 'markings' },
        'proof-edit',
        telling.describe(fixes),
        drawFix(items, numbers, naming),
      ),
    );
  });

const numbersFor = <Fix>(fixes: readonly Fix[], numbered: readonly Numbered<Fix>[]): readonly number[] => {
  const made = new Set(fixes);
  const own = numbered.filter(({ finding: { fix, furtherFixes } }) =>
    [fix, ...furtherFixes].some((each) => each !== null && made.has(each)),
  );
  return [...new Set(own.map(({ number }) => number))].slice(0, MOST_NUMBERS);
};

/** An edit that puts right many faults names the first of them. */
const MOST_NUMBERS = 3;

/** The markings of the file (indices) that the layout does not draw: diagrams, and those of an earlier annotation. */
export const redrawnMarkings = (score: Score): ReadonlySet<number> => {
  const own = new Set(ownElements(score).map(({ span }) => span.start));
  return new Set(
    score.markings.flatMap(({ form, span }, index) =>
      form === 'harp-pedals' || own.has(span.start) ? [index] : [],
    ),
  );
};

/** These markings, drawn as ours are. */
export const drawFileMarkings = (score: Score, engraving: EngravingOptions): readonly SpaceDrawing[] => {
  const redrawn = redrawnMarkings(score);
  return score.markings.flatMap((marking, index) => {
    if (!redrawn.has(index)) return [];
    const { at, bar, positions } = marking;
    const place = { id: `own-${index + 1}`, at, bar, beat: beatAt(score.bars[bar]!, at) };
    const printed = statedMarking(place, Object.entries(positions) as [Letter, Position][]);
    return [
      spaceOf(
        { id: place.id, at, bar, line: 'markings' },
        'proof-marking',
        wordsOf(engraving).proof.inFile,
        drawPrinted(printed, engraving),
      ),
    ];
  });
};

/** The words of an earlier annotation, which the layout does not draw. */
export const drawOwnLeverWords = (
  score: Score,
  { naming, language }: Pick<EngravingOptions, 'naming' | 'language'>,
): readonly SpaceDrawing[] => {
  const { inFile } = wordsOf({ language }).proof;
  const own = new Set(ownElements(score).map(({ span }) => span.start));
  return score.leverWords.flatMap(({ at, bar, span, text }, index) => {
    if (!own.has(span.start)) return [];
    const art = drawRows([wordsWithNames(text)], naming);
    return [spaceOf({ id: `own-${index + 1}`, at, bar, line: 'flags' }, 'proof-marking', inFile, art)];
  });
};

/** Accidentals are signs of the music font: names are drawn as names. */
const wordsWithNames = (text: string): readonly RowItem[] =>
  text
    .split(/([A-G][♭♮♯]\d?)/u)
    // Names beside each other are parted by their distance.
    .filter((part) => !/^[\s,]*$/u.test(part))
    .map((part): RowItem => {
      const [, letter, sign, octave] = /^([A-G])([♭♮♯])(\d?)$/u.exec(part) ?? [];
      if (letter === undefined || sign === undefined) return { kind: 'words', text: part.trim() };
      const position = sign === '♭' ? -1 : sign === '♮' ? 0 : 1;
      const name = { kind: 'name', letter: letter as Letter, position, ringed: false } as const;
      return octave === '' ? name : { ...name, octave: Number(octave) };
    });

const listFindings = <Fix>(
  score: Score,
  harp: HarpKind,
  numbered: readonly Numbered<Fix>[],
  fixes: FixTelling<Fix>,
  telling: ProofTelling,
): ClosingSection => {
  const { labelled, places, proof } = telling.words;
  if (numbered.length === 0) {
    return { heading: proof.nothing, notes: [{ art: null, text: proof.right[harp] }] };
  }
  return {
    heading: proof.faults,
    notes: numbered.map(({ finding, number }) => {
      const place = places.beatInBar(nameBarIn(score)(finding.bar), formatBeat(finding.beat));
      const own = [...(finding.fix === null ? [] : [finding.fix]), ...finding.furtherFixes];
      const told = [telling.finding(finding), fixes.describe(own), ...finding.advice.map(telling.advice)];
      return {
        art: drawPlaceNumber(number),
        text: labelled(place, told.filter((each) => each !== '').join(' ')),
      };
    }),
  };
};

const listEdits = <Fix>(
  { repair }: AnyProof<Fix>,
  { describe }: FixTelling<Fix>,
  { words }: ProofTelling,
): ClosingSection => ({
  heading: words.proof.edits,
  notes: repair.edits.map(({ fixes }) => ({ art: null, text: describe(fixes) })),
});
