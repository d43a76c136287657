import {
  type Cause,
  compare,
  countFinder,
  type GradedMeasure,
  type HarpFinding,
  type HarpPlan,
  hardestFirst,
  nameBarIn,
  nameEndsIn,
  type PassageDifficulty,
  type Score,
  stopPlaces,
  tempoUnit,
} from '../../../engine/index.ts';
import { rowText, settingItems } from '../../draw/name-items.ts';
import { findStandAt } from '../../facts/harp-stand.ts';
import { tellLeversUp } from '../../facts/tell-stands.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import { type Block, heightOf, writeParagraph } from '../../sheets/block.ts';
import { writeHeading } from '../../sheets/headings.ts';
import { letteringsOf, type Sheet } from '../../sheets/sheet.ts';
import { wordsOf } from '../../words/words.ts';
import type { BarRange } from '../lines/counted-line.ts';
import { drawFootwork } from '../lines/footwork-line.ts';
import { drawHandLine } from '../lines/hand-line.ts';
import { tellCause } from '../tell-cause.ts';
import { cutLines, placeLines } from './excerpt.ts';

/** A part with its plan, and its pages for excerpts. */
export interface Music {
  readonly score: Score;
  readonly harp: HarpPlan;
  readonly pages: readonly string[];
}

/** More are no longer spots. */
const MOST_SPOTS = 5;

/** The passages that are not easy: those that are not playable first, then the hardest. */
export const findHardSpots = ({ summary }: HarpPlan['plan']): readonly PassageDifficulty[] =>
  summary.difficulty.passages
    .filter(({ grade, playable }) => grade !== 'easy' || !playable)
    .toSorted((a, b) => Number(a.playable) - Number(b.playable) || hardestFirst(a, b))
    .slice(0, MOST_SPOTS);

/** Heights that fill a sheet to its end in sum may come to a little more. */
const ROUNDING_MM = 0.01;

/** Music is drawn so much smaller where its spot then has room on one sheet; no smaller than this. */
const LEAST_SHARE = 0.7;

/**
 * A spot: its music, its feet in time, what is hard, and how to practise it.
 *
 * @param roomMm the height of a sheet for it, on which it stands whole if it can
 */
export const writeHardSpot = (
  spot: PassageDifficulty,
  rank: number,
  { score, harp, pages }: Music,
  naming: NoteNaming,
  sheet: Sheet,
  roomMm: number,
): readonly Block[] => {
  const { from, until, grade, causes } = spot;
  const moves = harp.plan.moves.some(({ bar }) => bar >= from && bar <= until);
  const words = wordsOf(sheet);
  const { study, difficulty } = words;
  const stand = findStandAt(score, harp, from);
  const above = [
    ...writeHeading(study.spot(rank, nameSpan(score, from, until, sheet), difficulty.grades[grade]), sheet),
    ...causes.flatMap((cause) => writeItem(tellCause(cause, harp.kind, sheet), '•', true, sheet)),
    ...writeItem(
      words.levers.atSpot(
        stand.kind === 'lever'
          ? tellLeversUp(stand, naming, words)
          : `${rowText(settingItems(stand.begins, []), naming)}.`,
      ),
      '•',
      true,
      sheet,
    ),
  ];
  const below = [
    ...(moves ? drawMovesAlone({ score, harp }, naming, sheet, { from, until }) : []),
    ...writeHeading(study.exercises, sheet),
    ...writeExercises({ score, harp }, spot, moves, sheet),
  ];
  const lines = cutLines(pages, score.bars.slice(from, until + 1), sheet);
  const place = (share: number): readonly Block[] =>
    placeLines(lines, { paleOutside: true, share, name: `spot-${rank}` }, sheet);
  const music = place(1);
  const fitting = (roomMm - heightOf(above) - heightOf(below) - ROUNDING_MM) / heightOf(music);
  return [...above, ...(fitting >= LEAST_SHARE && fitting < 1 ? place(fitting) : music), ...below];
};

const writeItem = (words: string, mark: string, keepsWithNext: boolean, sheet: Sheet): readonly Block[] =>
  writeParagraph(words, sheet.widthMm, {
    lettering: letteringsOf(sheet).text,
    indentMm: 1.5 * sheet.emMm,
    mark,
    keepsWithNext,
  });

/** Where no more of a passage's bars fail, the others are worth practising. */
const MOST_FAILING = 1 / 3;

/** The bars of a passage (indices) in which something cannot be played. */
const barsFailing = (
  { findings }: HarpPlan['plan'],
  { from, until }: PassageDifficulty,
): readonly number[] => {
  const stops = stopPlaces<HarpFinding>(findings);
  const bars = new Set(stops.map(({ place }) => place.bar).filter((bar) => bar >= from && bar <= until));
  return [...bars].sort((a, b) => a - b);
};

const tellFailing = (failing: readonly number[], score: Score, sheet: Sheet): string =>
  wordsOf(sheet).study.exceptBars(failing.map(nameBarIn(score)).join(', '), failing.length);

const writeExercises = (
  music: Pick<Music, 'score' | 'harp'>,
  spot: PassageDifficulty,
  moves: boolean,
  sheet: Sheet,
  failing: readonly number[] = barsFailing(music.harp.plan, spot),
): readonly Block[] =>
  failing.length <= MOST_FAILING * (spot.until - spot.from + 1)
    ? [
        ...(failing.length === 0
          ? []
          : writeParagraph(tellFailing(failing, music.score, sheet), sheet.widthMm, {
              lettering: letteringsOf(sheet).text,
              keepsWithNext: true,
            })),
        ...tellExercises(music, spot, moves, sheet).flatMap((words, i) =>
          writeItem(words, `${i + 1}.`, true, sheet),
        ),
        ...writeParagraph(tellRest(music.harp.kind, sheet), sheet.widthMm, {
          lettering: letteringsOf(sheet).aside,
        }),
      ]
    : writeParagraph(wordsOf(sheet).study.noExercises, sheet.widthMm, {
        lettering: letteringsOf(sheet).text,
      });

const tellRest = (kind: HarpPlan['kind'], sheet: Sheet): string => {
  const { study, levers } = wordsOf(sheet);
  return kind === 'pedal' ? study.restBetween : levers.restBetween;
};

/** Feet or hands in time, away from the strings. */
export const drawMovesAlone = (
  { score, harp }: Pick<Music, 'score' | 'harp'>,
  naming: NoteNaming,
  sheet: Sheet,
  bars?: BarRange,
): readonly Block[] =>
  harp.kind === 'pedal'
    ? drawFootwork(score, harp.plan, naming, sheet, bars)
    : drawHandLine(score, harp.plan, naming, sheet, bars);

const nameSpan = (score: Score, from: number, until: number, sheet: Sheet): string => {
  const { places } = wordsOf(sheet);
  return places.bars(...nameEndsIn(score)(from, until));
};

const tellExercises = (
  { score, harp }: Pick<Music, 'score' | 'harp'>,
  { from, causes, measures: { shortestSpacing } }: PassageDifficulty,
  moves: boolean,
  sheet: Sheet,
): readonly string[] => {
  const { study, levers } = wordsOf(sheet);
  const ofHands = isHardForHands(causes);
  const unit = tempoUnit(countFinder(score)(score.bars[from]!));
  const tempo = tempoAt(score, from) / unit.quarters;
  const { left, right } = shortestSpacing;
  const spacings = ofHands ? [] : [left, right].filter((seconds) => seconds !== null);
  const slow = slowTempo(tempo, spacings);
  // The ladder begins where hands and feet came together.
  const first = Math.min(slow, slowTempo(tempo, []));
  const words = harp.kind === 'pedal' ? study : levers;
  const alone = harp.kind === 'pedal' ? [study.feetAlone] : [levers.leversAlone, levers.aroundEach];
  return [
    ...(ofHands ? [study.eachHand] : moves ? alone : []),
    // Where nothing moves, the ladder is for the hands.
    ...(moves ? [words.handsAlone] : []),
    ...(spacings.length > 0
      ? [slow < Math.round(tempo) ? words.slowly(unit.sign, first) : words.inTempo(unit.sign, slow)]
      : []),
    study.ladder(unit.sign, climb(first, Math.round(tempo))),
  ];
};

const OF_HANDS: readonly GradedMeasure[] = ['barsOverloaded', 'notesPerSecond'];

/** Whether the notes alone make a passage hard, and not what moves. */
const isHardForHands = (causes: readonly Cause[]): boolean => {
  const measures = causes.flatMap((cause) => (cause.kind === 'measure' ? [cause.name] : []));
  return measures.length > 0 && measures.every((name) => OF_HANDS.includes(name));
};

/** Quarters a minute in force where a bar begins. */
const tempoAt = (score: Score, bar: number): number => {
  const { onset } = score.bars[bar]!;
  const mark = score.tempo.findLast(({ at }) => compare(at, onset) <= 0) ?? score.tempo[0]!;
  return mark.quartersPerMinute;
};

/** A beginner's time between two moves of one foot (common practice, no source). */
const WANTED_SECONDS = 1;

/** Nobody practises slower than this. */
const SLOWEST = 20;

/** Where the hands begin when the feet set no tempo, as a share of the written one (common practice, no source). */
const HANDS_SHARE = 2 / 3;

/**
 * The quickest tempo at which each foot has a second between its moves; two thirds of the written one without any.
 *
 * @param tempo the written one, in counts a minute
 * @param spacings the least time between two moves of each foot at that tempo, in seconds
 */
export const slowTempo = (tempo: number, spacings: readonly number[]): number => {
  const share =
    spacings.length === 0 ? HANDS_SHARE : Math.min(1, ...spacings.map((each) => each / WANTED_SECONDS));
  return Math.max(Math.min(SLOWEST, Math.round(tempo)), Math.floor(tempo * share));
};

const MOST_STEPS = 6;

/** Tempi from the slow one to the written one, each by the same share quicker than the one before, and by at least four. */
export const climb = (slow: number, tempo: number): readonly number[] => {
  if (tempo <= slow) return [tempo];
  const firstStep = (steps: number): number => slow * ((tempo / slow) ** (1 / steps) - 1);
  let steps = MOST_STEPS - 1;
  while (steps > 1 && firstStep(steps) < LEAST_STEP) steps -= 1;
  return Array.from({ length: steps + 1 }, (_, i) => Math.round(slow * (tempo / slow) ** (i / steps)));
};

const LEAST_STEP = 4;
