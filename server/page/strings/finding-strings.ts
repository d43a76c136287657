import {
  capitalize,
  type Extent,
  FINDINGS,
  type FindingCode,
  forSomePlaces,
  GRADE_WORDS,
  type Grade,
  listBars,
  nameCount,
  nameExtent,
  namePlaceInBar,
  OWN_SCALE,
  SEARCH_ENDED,
  SEVERITY_WORDS,
  type Severity,
  tellCosts,
  tellFixedBefore,
  tellFreeSpelling,
  tellHeard,
  tellMended,
  tellPlayableUpTo,
  tellWarningsLeft,
  VERDICT_WORDS,
  VERDICTS,
  type Verdict,
} from '../../../engine/index.ts';
import { tellChangedRows } from './shared-strings.ts';

/** What becomes of notes, by their names without octave; which note is left out makes no difference. */
export type LikeChange =
  | { readonly kind: 'respell'; readonly from: string; readonly to: string }
  | { readonly kind: 'omit' };

const nameLikeChange = (code: FindingCode, change: LikeChange): string => {
  if (change.kind === 'respell') return `write ${change.to} for the ${change.from}`;
  return FINDINGS[code].omittedIsHeard ? 'play the note with one hand only' : 'leave out the note';
};

/** What is told of a part: findings, markings in the file, difficulty, fixes. */
export const FINDING_STRINGS = {
  findings: {
    heading: 'Findings',
    none: 'No problems found: the part is playable as printed.',
    severity: (severity: Severity) => SEVERITY_WORDS[severity].name,
    count: (severity: Severity, count: number) => `${SEVERITY_WORDS[severity].name}: ${count}`,
    kinds: 'Kind of finding',
    allKinds: 'All kinds',
    kind: (kind: string, count: number) => `${kind}: ${count}`,
    previous: 'Previous finding',
    next: 'Next finding',
    title: (code: FindingCode) => FINDINGS[code].title,
    at: (extent: Extent) => capitalize(nameExtent(extent)),
    /** Where findings that are told as one stand. */
    barsOf: (extents: readonly Extent[]) => listBars(extents.map(({ from }) => from)),
    /** @param changes what becomes of notes, by their names without octave */
    atAll: (code: FindingCode, changes: readonly LikeChange[], places: number) =>
      `${capitalize(changes.map((change) => nameLikeChange(code, change)).join(', '))} (${places} places).`,
    takeAtAll: (places: number) => `Apply at all ${places} places`,
    cameTo: (rows: readonly (readonly [what: string, before: string, after: string])[]) =>
      rows.length === 0 ? 'Applied. Nothing else changes.' : `Applied: ${tellChangedRows(rows)}.`,
    everyPlace: (places: number) => `All ${places} places`,
    moreFixes: (more: number) => `${more} more`,
    remarks: 'Reading and printing',
    remark: (bar: string, message: string) => (bar === '' ? message : `Bar ${bar}: ${message}`),
  },
  proof: {
    heading: 'Markings in the file',
    asking: 'Proofreading the markings that the file brings …',
    told: (markings: number, correct: boolean, edits: number) =>
      `${nameCount(markings, 'marking')}: ${correct ? 'they are right.' : edits === 0 ? 'no change of a marking was found that helps.' : 'they need fixing.'}`,
    atHead: (markings: number) => `The file brings ${nameCount(markings, 'marking')} of its own`,
    fares: {
      right: 'they are right.',
      wrong: (stops: number) =>
        stops === 0
          ? 'they need fixing.'
          : `by them ${nameCount(stops, 'place')} cannot be played as written.`,
    },
    show: 'Show them',
    edits: (edits: number, proven: boolean, left: number) =>
      left > 0
        ? nameCount(edits, 'edit')
        : edits === 1
          ? 'One edit leaves no fault'
          : `${edits} edits leave no fault${proven ? '; no fewer would do' : ''}`,
    left: (faults: number) => `${nameCount(faults, 'fault')} will be left that no marking can fix.`,
    repair: (taken: number, of: number) =>
      taken === of ? 'Save the corrected file' : `Save the file with ${taken} of ${of} edits`,
    repaired: 'The corrected file',
    all: 'Select all edits',
    none: 'Select no edit',
    pages: 'Report as PDF',
    mark: 'Mark as a pupil’s attempt',
    markHeading: 'A pupil’s attempt, marked',
    marking: 'Marking the attempt …',
    points: (given: number, most: number) => `${given} of ${nameCount(most, 'point')}`,
    counts: (counts: Readonly<Record<Verdict, number>>) =>
      VERDICTS.flatMap((verdict) =>
        counts[verdict] === 0 ? [] : `${counts[verdict]} ${VERDICT_WORDS[verdict]}`,
      ).join(', '),
    comments: 'What is not right',
    savePdf: 'Save as PDF',
    close: 'Close',
    markedFile: 'The marked attempt',
  },
  summary: {
    moves: (moves: number, least: number) =>
      `${nameCount(moves, 'move')}${moves > least && least > 0 ? ` (no plan has fewer than ${least})` : ''}`,
    unproved: SEARCH_ENDED,
    start: (setting: string) => `Start with ${setting}`,
    about: 'About the piece',
    aboutShort: 'About',
  },
  difficulty: {
    grade: (grade: Grade) => GRADE_WORDS[grade],
    phrase: (grade: Grade) => `Difficulty: ${GRADE_WORDS[grade]}`,
    passages: 'Passages that are not easy',
    ownScale: OWN_SCALE,
  },
  secondHarp: {
    heading: 'With a second harp',
    ask: 'Find the least that a second harp must play',
    asking: 'Dividing the part …',
    bar: (number: string) => `Bar ${number}`,
    player: (index: number, notes: number, moves: number, playable: boolean) =>
      `${index === 0 ? 'First' : 'Second'} harp: ${nameCount(notes, 'note')}, ${nameCount(moves, 'move')}, ${playable ? 'playable' : 'not playable yet'}.`,
    unproved: 'It is the best division that was found; a better one may exist.',
    parts: 'Both parts and the score (ZIP)',
  },
  offers: {
    heading: 'Smallest changes',
    ask: 'Find the smallest changes that make it playable',
    asking: 'Planning with every change …',
    place: (bar: string, beat: string) => capitalize(namePlaceInBar(bar, beat)),
    passage: (bars: string) => capitalize(bars),
    fixedBefore: tellFixedBefore,
    forSomePlaces,
    none: 'No single change was found that helps.',
    ways: (ways: number, places: number) =>
      `${nameCount(ways, 'alternative')}${places > 1 ? ', each for all or some of these places' : ''}: see Smallest changes`,
    untried: (places: number) => `${nameCount(places, 'more place')} not looked at.`,
    heard: tellHeard,
    costs: tellCosts,
    warningsLeft: tellWarningsLeft,
    alsoFixes: (places: number) =>
      places > 0 ? `Makes ${nameCount(places, 'other place')} playable too.` : '',
    secondHarp: 'What a second harp must play',
    tryIt: 'Try it',
    tryWhat: (sentence: string) => `Try it: ${sentence}`,
    isTried: 'Tried:',
    takeBack: 'Remove',
    takeBackWhat: (sentence: string) => `Remove: ${sentence}`,
    takenBack: (sentence: string) => `Removed: ${sentence.replace(/\.$/, '')}`,
    solved: 'playable now',
    earlier: 'This list was made before your last change; the numbers may be different now.',
    left: (places: number) => `${nameCount(places, 'place')} still not playable.`,
    nowPlayable: 'The part is now playable as printed.',
    askAgain: 'Look again',
    tried: (sentence: string) => sentence.replace(/\.$/, ''),
    freeSpelling: (free: Parameters<typeof tellFreeSpelling>[0]) =>
      `${tellFreeSpelling(free)} The option Spelling chooses it.`,
    playableUpTo: tellPlayableUpTo,
    mended: tellMended,
    graph: (steps: readonly (readonly [string, number])[]) =>
      `Places that are not playable, by tempo: ${steps.map(([tempo, places]) => `${places} at ${tempo}`).join(', ')}`,
  },
} as const;
