import { group } from 'd3-array';
import {
  add,
  compare,
  FEET,
  type HarpFinding,
  LETTERS,
  multiply,
  type Rational,
  rational,
  type Score,
} from '../../engine/index.ts';
import { sizeOfChange } from '../draw/draw-marking.ts';
import { type Drawing, inHeight, inWidth, PADDING_VU } from '../draw/drawing.ts';
import { drawPlaceNumber } from '../draw/place-number.ts';
import { blankGroup, countGroup, placeNumberGroup } from '../draw/svg-groups.ts';
import type { WordsSide } from '../draw/words-under.ts';
import { type EngravingOptions, mmPerVu } from '../engraving-options.ts';
import { tellFinding } from '../facts/tell-finding.ts';
import { ALL_STAVES, type SpaceRow, type StaffRange } from '../layout/spaces/reserve-spaces.ts';
import { EDGE_AT_MOMENT, type Standing } from '../layout/spaces/stance.ts';
import { drawLeverForm } from '../levers/draw-levers.ts';
import type { NotesMarking } from '../levers/note-signs.ts';
import { barsWithNotes } from '../markings/bars-with-notes.ts';
import { drawCount, listCounts } from '../markings/beat-counts.ts';
import {
  type DrawnMarking,
  drawPrinted,
  isDrawn,
  type PrintedMarking,
  printedGroup,
} from '../markings/printed-markings.ts';
import { fenceFinder, STANDS_OVER, standingFinder } from '../markings/standing.ts';
import { listUnplayablePlaces, type UnplayablePlace } from '../markings/unplayable-places.ts';
import type { Language } from '../words/language.ts';
import { wordsOf } from '../words/words.ts';
import {
  type DrawnScore,
  markingsOf,
  type PageNotes,
  type PlacedHarp,
  type PlannedHarp,
} from './drawn-score.ts';
import type { SpaceDrawing } from './finish-system.ts';

/** The markings of one part. */
export interface PartMarkings {
  readonly part: PlacedHarp;
  readonly markings: readonly PrintedMarking[];
}

/** What is drawn in the music. `reminders` are bars (indices) at whose start a setting is printed in any case. */
export interface PageDrawings {
  /** Places that are not playable, to be numbered. */
  readonly places: readonly UnplayablePlace[];
  /** Markings that the layout itself draws, as notes. */
  readonly signs: readonly NotesMarking[];
  readonly markings: (reminders: readonly number[]) => readonly PartMarkings[];
  /** @param until a bar (an index): only what stands before it */
  readonly drawings: (reminders: readonly number[], until?: number) => readonly SpaceDrawing[];
}

/** The places of a part that are not playable, in the words and names of notes of its pages. */
export const unplayablePlacesOf = (
  { score, plan: { plan } }: Pick<PlannedHarp, 'score' | 'plan'>,
  { language, naming }: Pick<EngravingOptions, 'language' | 'naming'>,
): readonly UnplayablePlace[] =>
  listUnplayablePlaces<HarpFinding>(score, plan, (finding) =>
    tellFinding(finding, naming, wordsOf({ language })),
  );

/** Works out what is drawn in the music; what is asked for again is not worked out again. */
export const listDrawings = (
  { parts }: DrawnScore,
  { numberUnplayable, language, naming }: EngravingOptions,
  notes: PageNotes,
  numberOf: (bar: number) => string,
): PageDrawings => {
  const places = numberUnplayable
    ? parts.flatMap((part) => unplayablePlacesOf(part, { language, naming }))
    : [];
  const lasting = [
    ...places.map((place) => drawingOfPlace(place, language, parts[0]?.staves ?? ALL_STAVES)),
    ...(parts.length === 1 ? parts.flatMap(countsIn) : []),
    ...parts.filter(({ shown }) => shown === 'none').flatMap(emptyRooms),
    ...notes.drawings,
  ];
  const markings = keepAnswers((reminders) =>
    parts.map((part): PartMarkings => ({ part, markings: markingsOf(part, reminders) })),
  );
  const drawers = new Map(markings([]).map((each) => [each.part, markingDrawer(each, numberOf)]));
  return {
    places,
    signs: markings([]).flatMap((each) => each.markings.filter((marking) => !isDrawn(marking))),
    markings,
    drawings: (reminders, until = Number.POSITIVE_INFINITY) => {
      const inTime = ({ bar }: { readonly bar: number }): boolean => bar < until;
      return [
        ...markings(reminders).flatMap((each) =>
          each.markings
            .filter(isDrawn)
            .filter((marking) => each.part.shown !== 'none' || isBeforeMusic(marking))
            .filter(inTime)
            .map(drawers.get(each.part)!),
        ),
        ...lasting.filter(inTime),
      ];
    },
  };
};

/** What is told over the first note; the room of anything else would show a pupil who is to find the places where it is. */
const isBeforeMusic = ({ kind }: Pick<DrawnMarking, 'kind'>): boolean =>
  kind === 'levers' || kind === 'tuning';

const keepAnswers = <Answer>(
  work: (reminders: readonly number[]) => Answer,
): ((reminders: readonly number[]) => Answer) => {
  const known = new Map<string, Answer>();
  return (reminders) => {
    const key = `${reminders}`;
    const answer = known.get(key) ?? work(reminders);
    known.set(key, answer);
    return answer;
  };
};

/** Says how the markings of a part are drawn, and where. */
const markingDrawer = (
  { part: { score, engraving, staves, shown }, markings }: PartMarkings,
  numberOf: (bar: number) => string,
): ((marking: DrawnMarking) => SpaceDrawing) => {
  const standingOf = standingFinder(score, engraving.marksAt);
  const fenceOf = fenceFinder(score);
  const artOf = artist(score, engraving);
  const isCrowded = crowdedFinder(score, markings);
  const drawn = new WeakMap<DrawnMarking, SpaceDrawing>();
  return (marking) => {
    const known =
      drawn.get(marking) ??
      drawingOf(marking, numberOf(marking.bar), engraving, {
        ...{ artOf, standing: standingOf(marking), staves, shown, isCrowded: isCrowded(marking), fenceOf },
      });
    drawn.set(marking, known);
    return known;
  };
};

/** Chord symbols and tempo words keep clear of what stands before the first note. */
const UNDER_START_VU = 1.2;

/** In notes faster than this a full setting is wider than what lies between it and a marking so near. */
const RUN_QUARTERS = rational(1);
const CROWDED_QUARTERS = rational(3, 2);

/** What such a setting keeps of its width, in vu: next to nothing, since a letter beside it keeps its own. */
const CROWDED_VU = 0.5;

/** Says of a full setting whether another marking stands so near that the notes of a run would be pushed apart for it. */
const crowdedFinder = (
  { notes }: Pick<Score, 'notes'>,
  printed: readonly PrintedMarking[],
): ((marking: Pick<DrawnMarking, 'kind' | 'at' | 'bar'>) => boolean) => {
  const inBars = group(printed, ({ bar }) => bar);
  const played = group(
    notes.filter(({ role }) => role === 'played'),
    ({ bar }) => bar,
  );
  const follows = (from: Rational, at: Rational, quarters: Rational): boolean =>
    compare(at, from) > 0 && compare(at, add(from, quarters)) < 0;
  return ({ kind, at, bar }) => {
    if (kind !== 'setting') return false;
    const isNear = (inBars.get(bar) ?? []).some(
      (other) => follows(at, other.at, CROWDED_QUARTERS) || follows(other.at, at, CROWDED_QUARTERS),
    );
    const after = [bar, bar + 1].flatMap((each) => played.get(each) ?? []);
    return isNear && after.some(({ onset }) => follows(at, onset, RUN_QUARTERS));
  };
};

/** Words under a change keep to the side of its moment; late in a bar they reach back, since no room is left before its end. */
const sideOfWords = (
  { at, bar, kind }: Pick<DrawnMarking, 'at' | 'bar' | 'kind'>,
  { stance, endsInBar }: Standing,
  { bars }: Pick<Score, 'bars'>,
): WordsSide => {
  // What stands under the name of a string is as narrow as the name.
  if (kind === 'lever-change') return 'left';
  const { onset, duration } = bars[bar]!;
  const isLate = compare(at, add(onset, multiply(duration, rational(1, 2)))) >= 0;
  return stance === 'from' && endsInBar && isLate ? 'right' : EDGE_AT_MOMENT[stance];
};

/** A pencil writes a letter with its sign so high, in millimetres (by hand). */
const PENCIL_MM = 6.5;

/**
 * Draws markings by how they stand. What a box of an exercise is to hold must not show in how wide it is, a pencil has to
 * have room in it, and the solution stands where the boxes do.
 */
const artist = (score: Score, engraving: EngravingOptions) => {
  const isExercise = engraving.edition === 'exercise';
  const { widthVu, heightVu } = sizeOfChange(engraving.naming);
  const rowMm = heightVu * mmPerVu(engraving);
  const times = isExercise ? Math.max(1, PENCIL_MM / rowMm) : 1;
  const leastVu = isExercise ? widthVu * times : 0;
  // The names of a setting stand close: each without the clear space of its own.
  const names = engraving.settingLook === 'letters-two-rows' ? FEET.right.length : LETTERS.length;
  const leastOfSetting = isExercise ? names * (widthVu - 2 * PADDING_VU) * times + 2 * PADDING_VU : 0;
  return (marking: DrawnMarking, standing: Standing): Drawing => {
    const art = drawPrinted(marking, engraving, sideOfWords(marking, standing, score));
    const hasWords = art.endVu !== undefined;
    // Without boxes nothing shows how wide it is, and a wide room would push a name from its beat.
    if (engraving.blanks === 'none' && marking.kind === 'lever-change') return inHeight(art, times);
    if (hasWords || marking.kind === 'tuning' || marking.kind === 'levers') return art;
    const least = marking.kind === 'setting' ? leastOfSetting : leastVu;
    return inHeight(inWidth(art, least, EDGE_AT_MOMENT[standing.stance]), times);
  };
};

const drawingOf = (
  marking: DrawnMarking,
  barNumber: string,
  engraving: EngravingOptions,
  {
    artOf,
    standing,
    staves,
    shown,
    isCrowded,
    fenceOf,
  }: Pick<PlacedHarp, 'staves' | 'shown'> & {
    readonly artOf: ReturnType<typeof artist>;
    readonly standing: Standing;
    readonly isCrowded: boolean;
    readonly fenceOf: ReturnType<typeof fenceFinder>;
  },
): SpaceDrawing => {
  const art = artOf(marking, standing);
  const { language } = engraving;
  const fence = fenceOf(marking, standing);
  const isStart = isBeforeMusic(marking);
  const { widthVu, heightVu } = art.box;
  return {
    ...marking,
    ...standing,
    staves,
    line: isStart ? 'start' : 'markings',
    box: { widthVu, heightVu: heightVu + (isStart ? UNDER_START_VU : 0) },
    ...(isCrowded ? { keptVu: CROWDED_VU } : {}),
    ...(fence === null ? {} : { fence, keptVu: widthVu - (art.tailVu ?? 0) }),
    ...footOf(marking, engraving),
    ...(art.startVu === undefined ? {} : { startVu: art.startVu }),
    ...(art.endVu === undefined ? {} : { endVu: art.endVu }),
    ...(art.tailVu === undefined ? {} : { tailVu: art.tailVu }),
    ...(art.headVu === undefined ? {} : { headVu: art.headVu }),
    draw: (place) =>
      // How strings are tuned is no question.
      shown === 'all' || marking.kind === 'tuning'
        ? printedGroup(marking, { barNumber, language }, art, place)
        : shown === 'boxes'
          ? blankGroup(marking.id, art.box, language, place, formOf(marking, engraving, art))
          : blankGroup(marking.id, null, language, place),
  };
};

/** A table of levers is filled in by its letters and octaves. */
const formOf = (marking: DrawnMarking, engraving: EngravingOptions, { box }: Drawing): string =>
  marking.kind === 'levers' ? drawLeverForm(marking, engraving, box) : '';

/** Whose row a change stands in; what a box of an exercise is to hold must not show in its height. */
const footOf = (marking: DrawnMarking, { edition }: EngravingOptions): Pick<SpaceDrawing, 'foot'> => {
  if (edition === 'exercise' || marking.kind !== 'change' || marking.onReturn.length > 0) return {};
  const { left, right } = marking;
  return { foot: left.length === 0 ? 'right' : right.length === 0 ? 'left' : 'both' };
};

/** A sign over one harp's staves, beside no grace note. */
const signOver = (
  { id, at, bar }: Pick<SpaceDrawing, 'id' | 'at' | 'bar'>,
  line: SpaceRow,
  staves: StaffRange,
  { box }: Drawing,
  draw: SpaceDrawing['draw'],
): SpaceDrawing => ({ id, at, bar, graceNote: null, ...STANDS_OVER, line, staves, box, draw });

/** The counts over one harp's staves. */
const countsIn = ({ score, plan, engraving, staves }: PlacedHarp): readonly SpaceDrawing[] =>
  listCounts(score, plan, engraving.beatCounts).map((each) => {
    const art = drawCount(each);
    return signOver(each, 'counts', staves, art, (place) => countGroup(each.id, art, place));
  });

/** How wide an empty room is: next to nothing. */
const EMPTY_VU = 0.5;

/**
 * In each bar with notes a room that stays empty, as high as a change: where the pupil finds the places, lines in which something
 * changes must not show it by how far they stand apart.
 */
const emptyRooms = ({ score, engraving, staves }: PlacedHarp): readonly SpaceDrawing[] => {
  const { heightVu } = sizeOfChange(engraving.naming);
  const times = Math.max(1, PENCIL_MM / (heightVu * mmPerVu(engraving)));
  const art = { box: { widthVu: EMPTY_VU, heightVu: heightVu * times }, body: '', text: '' };
  const played = barsWithNotes(score);
  return score.bars
    .filter(({ index }) => played.has(index))
    .map(({ index, onset }) => {
      const room = { id: `empty-room-${index + 1}`, at: onset, bar: index };
      return signOver(room, 'markings', staves, art, () => '');
    });
};

const drawingOfPlace = (flag: UnplayablePlace, language: Language, staves: StaffRange): SpaceDrawing => {
  const art = drawPlaceNumber(flag.number);
  return signOver(flag, 'flags', staves, art, (place) => placeNumberGroup(flag, language, art, place));
};
