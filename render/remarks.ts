import {
  beatAt,
  buildClock,
  compare,
  formatChange,
  type HarpPlan,
  type Letter,
  listBars,
  listNames,
  type Move,
  nameBarIn,
  nameCount,
  namePlaceInBar,
  openWithCount,
  type Plan,
  type Rational,
  type Remark,
  rationalKey,
  remarkIn,
  remarkOnAll,
  type Score,
  toldAtIn,
} from '../engine/index.ts';
import type { ChosenCues } from './cues/choose-cues.ts';
import { restsBeforeEntries } from './cues/rests-before-entries.ts';
import type { EngravingOptions } from './engraving-options.ts';
import type { PageTurn } from './layout/breaks/page-turns.ts';
import { LEVER_LOOKS } from './looks/lever-looks.ts';
import { findEarlyMoves } from './markings/early-moves.ts';
import { chooseMarkings, countUnprintedMoves, type Marking } from './markings/markings.ts';
import { placeAtNotes } from './markings/place-at-notes.ts';
import { markingsFor } from './markings/printed-markings.ts';
import type { EngravedPages } from './pages/engrave-pages.ts';
import { accidentalWords } from './part/texts/accidental-words.ts';
import { fifthFingers } from './part/texts/fingerings.ts';
import { wordsOf } from './words/words.ts';

/**
 * What the user should know about what is printed, on pages or into a file.
 *
 * @param reminders bars (indices) at whose start a setting is printed in any case
 */
export const printingRemarks = (
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  reminders: readonly number[] = [],
): Remark[] => {
  if (harp.kind === 'lever') return namedChanges(score, harp, engraving);
  const early = earlyMoves(score, harp.plan, engraving, reminders);
  const count = countUnprintedMoves(score, harp.plan, engraving, reminders);
  if (count === 0) return early;
  const moves = openWithCount(count, 'move is not printed', 'moves are not printed');
  return [remarkOnAll('moves-not-printed', `${moves}: you asked for full settings only.`), ...early];
};

/** Letters that stand before the notes they are wanted at, since the foot has no time for all its pedals there; by bar, though found foot by foot. */
const earlyMoves = (
  score: Score,
  plan: Plan,
  engraving: EngravingOptions,
  reminders: readonly number[],
): Remark[] => {
  if (engraving.marksAt === 'foot' || engraving.density === 'settings') return [];
  const atNote = placeAtNotes(score, plan);
  const early = findEarlyMoves(plan, atNote, buildClock(score.tempo));
  if (early.size === 0) return [];
  const printed = printedLetters(chooseMarkings(score, plan, engraving, reminders));
  return [...early]
    .filter((move) => printed.has(letterAt(move.letter, toldAtIn(score)(move))))
    .sort((a, b) => compare(a.at, b.at))
    .map((move) => {
      const [place, note] = [placeIn(score, move), placeIn(score, atNote(move))];
      return remarkIn(score, {
        code: 'mark-before-note',
        bar: move.bar,
        message: `${formatChange(move.letter, move.to)} stands where the foot moves (${place}): at the note that needs it (${note}) the ${move.foot} foot has no time for all its pedals.`,
      });
    });
};

const placeIn = (score: Score, { bar, at }: Pick<Move, 'bar' | 'at'>): string =>
  namePlaceInBar(nameBarIn(score)(bar), rationalKey(beatAt(score.bars[bar]!, toldAtIn(score)({ at, bar }))));

const letterAt = (letter: Letter, at: Rational): string => `${letter} ${rationalKey(at)}`;

const printedLetters = (markings: readonly Marking[]): ReadonlySet<string> =>
  new Set(
    markings.flatMap((marking) =>
      marking.kind === 'setting'
        ? []
        : [...marking.left, ...marking.right].map(({ letter }) => letterAt(letter, marking.at)),
    ),
  );

/** Changes that were to be shown as notes, and have nothing to stand before; others tell on the page why they are names. */
const namedChanges = (score: Score, harp: HarpPlan, engraving: EngravingOptions): Remark[] => {
  const wanted = LEVER_LOOKS[engraving.leverLook].kind;
  const named = markingsFor(score, harp, engraving).filter(
    (each) =>
      each.kind === 'lever-change' &&
      each.kind !== wanted &&
      each.onReturn.length === 0 &&
      each.inWords.length === 0,
  );
  if (named.length === 0) return [];
  const changes = named.length === 1 ? 'One lever change is' : `Lever changes at ${named.length} moments are`;
  const bars = printedBars(
    score,
    named.map(({ bar }) => bar),
  );
  const message = `${changes} printed by name, because there is no note or rest for a small note to stand before (${bars}).`;
  return [remarkOnAll('changes-by-name', message)];
};

/** What the user should know about a file with markings. */
export const fileRemarks = ({ naming }: EngravingOptions): Remark[] =>
  naming === 'english'
    ? []
    : [
        remarkOnAll(
          'names-in-english',
          'Note names in the file are English, so that proofreading and other programs can read them. German and fixed-do names appear on printed pages only.',
        ),
      ];

/** What the user should know about the pages. */
export const layoutRemarks = (
  score: Score,
  engraved: EngravedPages,
  engraving: EngravingOptions,
): Remark[] => [
  ...lettersMissing(engraved.missing),
  ...turnRemarks(score, engraved.turns),
  ...engraved.crowded.map(
    ({ page, overlaps }): Remark =>
      remarkOnAll(
        'page-crowded',
        `Page ${page} is too full: ${nameCount(overlaps, 'marking touches', 'markings touch')} something else. Choose a smaller staff or larger paper.`,
      ),
  ),
  ...(engraved.replacedMarkings === 0
    ? []
    : [
        remarkOnAll(
          'file-markings-replaced',
          wordsOf({ language: 'english' }).findings.markingsMadeWay(engraved.replacedMarkings),
        ),
      ]),
  ...addedAccidentals(score, engraved.accidentalsAdded),
  ...farNotes(score, engraved.ledgerBars, engraving.crossStaves),
  ...leftLetters(score, engraved.lettersLeftOut),
  ...leftAccidentals(score),
  ...(engraving.fifthFinger ? [] : leftFingerings(score)),
  ...cueRemarks(score, engraved.cues, engraving),
  ...(engraved.breaksGivenUp
    ? [
        remarkOnAll(
          'breaks-not-kept',
          "The file's own line and page breaks are not kept: it has none, or they do not fit this paper and staff size. tringle chose new ones.",
        ),
      ]
    : []),
  ...(engraved.isWhole
    ? [
        remarkOnAll(
          'laid-out-whole',
          'The file binds its bars together in a way that keeps tringle from laying out line by line. The pages are the same, but each change takes as long as the first drawing.',
        ),
      ]
    : []),
];

/** Letters that the fonts of the program do not draw. */
export const lettersMissing = (letters: readonly string[]): Remark[] =>
  letters.map((letter) => remarkOnAll('letter-not-in-font', missingLetter(letter)));

const missingLetter = (letter: string): string => {
  const code = letter.codePointAt(0)!.toString(16).toUpperCase();
  return /\p{Co}/u.test(letter)
    ? `A sign in the words of the file (U+${code}) belongs to a font of another program and is not known: it is left out.`
    : `The text font has no character “${letter}”, so it may look different on another computer.`;
};

const printedBars = (score: Score, bars: readonly number[]): string =>
  listBars([...new Set(bars)].map(nameBarIn(score)));

const addedAccidentals = (score: Score, added: readonly number[]): Remark[] => {
  if (added.length === 0) return [];
  const signs = openWithCount(added.length, 'accidental');
  const are = added.length === 1 ? 'is' : 'are';
  return [
    remarkOnAll(
      'accidentals-added',
      `${signs} missing from the file ${are} printed on the pages, to match how its notes sound (${printedBars(score, added)}).`,
    ),
  ];
};

const farNotes = (score: Score, bars: readonly number[], crossed: boolean): Remark[] => {
  if (bars.length === 0) return [];
  const message = crossed
    ? `Notes with five ledger lines or more stay on their staff: on the other they would leave their chord or octave line, or change how accidentals are read (${printedBars(score, bars)}).`
    : `Notes with five ledger lines or more would be easier to read on the other staff, which has room for them; the option “crossStaves” writes them there (${printedBars(score, bars)}).`;
  return [remarkOnAll('many-ledger-lines', message)];
};

/** From so many bars of rest on cues are offered. */
const OFFERED_BARS = 8;

/** What is cued, where nothing is there to be cued, or that cues can be had. */
const cueRemarks = (score: Score, { cues, without }: ChosenCues, engraving: EngravingOptions): Remark[] => {
  const isOff = engraving.cues === null && engraving.cueSeconds === null;
  const offered = isOff && cues.length === 0 ? offerCues(score) : [];
  const named = cues.map(({ bar, part }) => `${part.name} before bar ${nameBarIn(score)(bar)}`);
  const chosen: Remark[] =
    named.length === 0
      ? []
      : [remarkOnAll('cues', `Cues show what another instrument plays: ${named.join(', ')}.`)];
  const missing: Remark[] =
    without.length === 0
      ? []
      : [
          remarkOnAll(
            'cues',
            `No cue is printed where no other part has anything that leads to the entry (${printedBars(score, without)}).`,
          ),
        ];
  return [...offered, ...chosen, ...missing];
};

const offerCues = (score: Score): Remark[] => {
  const others = score.parts.filter(({ id, notes }) => notes > 0 && !score.harp.partIds.includes(id));
  const rests = restsBeforeEntries(score).filter(({ bars }) => bars >= OFFERED_BARS);
  if (others.length === 0 || rests.length === 0) return [];
  const bars = rests.map(({ bar }) => bar);
  const long = rests.length === 1 ? 'a rest' : `${rests.length} rests`;
  const message = `The part has ${long} of ${OFFERED_BARS} bars or more. With the option “cues” the last bars before the harp comes in show what another instrument plays (${printedBars(score, bars)}).`;
  return [remarkOnAll('cues', message)];
};

const leftFingerings = (score: Score): Remark[] => {
  const bars = fifthFingers(score).map(({ bar }) => bar);
  if (bars.length === 0) return [];
  const signs = openWithCount(bars.length, 'fingering');
  const are = bars.length === 1 ? 'is' : 'are';
  const message = `${signs} with a fifth finger ${are} not printed, since harpists play with four (${printedBars(score, bars)}).`;
  return [remarkOnAll('fingering-left-out', message)];
};

const leftLetters = (score: Score, left: readonly number[]): Remark[] => {
  if (left.length === 0) return [];
  const letters = openWithCount(left.length, 'coloured letter');
  const are = left.length === 1 ? 'is' : 'are';
  const message = `${letters} under the notes ${are} not printed: an analysis has them where the words of a song would stand (${printedBars(score, left)}).`;
  return [remarkOnAll('letters-left-out', message)];
};

const leftAccidentals = (score: Score): Remark[] => {
  const bars = accidentalWords(score).map(({ bar }) => bar);
  if (bars.length === 0) return [];
  const signs = openWithCount(bars.length, 'accidental');
  const [stand, are, belong] =
    bars.length === 1 ? ['stands', 'is', 'it belongs'] : ['stand', 'are', 'they belong'];
  const message = `${signs} that ${stand} in the file as words ${are} not printed: ${belong} to no note (${printedBars(score, bars)}).`;
  return [remarkOnAll('accidentals-left-out', message)];
};

/** Turns for which there is no time, each by itself, and how the others are in one remark. */
const turnRemarks = (score: Score, turns: readonly PageTurn[]): Remark[] => {
  const late = turns.filter(({ free }) => free === 'none');
  const others = turns.filter(({ free }) => free !== 'none');
  return [
    ...late.map(({ page, bar }): Remark => {
      const message = `There is no time to turn after page ${page}, before bar ${nameBarIn(score)(bar)}: both hands are playing.`;
      return remarkIn(score, { code: 'page-turn', bar, message });
    }),
    ...(others.length === 0 ? [] : [remarkOnAll('page-turn', describeGoodTurns(others, late.length > 0))]),
  ];
};

const describeGoodTurns = (turns: readonly PageTurn[], areOthers: boolean): string => {
  const which = areOthers ? 'other page turn' : 'page turn';
  const [all, leave] = turns.length === 1 ? [`The ${which}`, 'leaves'] : [`All ${which}s`, 'leave'];
  const seconds = Math.min(...turns.map((turn) => turn.seconds));
  const time = Number.isFinite(seconds)
    ? `${leave} at least ${seconds.toFixed(1)} seconds`
    : `${leave} all the time needed: the harp does not play again`;
  const oneHand = turns.filter(({ free }) => free === 'one-hand').map(({ page }) => page);
  const hand =
    oneHand.length === 0
      ? ''
      : `; only one hand is free after ${oneHand.length === 1 ? 'page' : 'pages'} ${listNames(oneHand.map(String))}`;
  return `${all} ${time}${hand}.`;
};
