import { group } from 'd3-array';
import {
  countVerdicts,
  type JudgedAttempt,
  type JudgedChange,
  type Result,
  rationalKey,
  type Score,
  VERDICTS,
} from '../../engine/index.ts';
import { type Drawing, setBeside, stackDrawings } from '../draw/drawing.ts';
import { drawingGroup } from '../draw/svg-groups.ts';
import type { EngravingChoice, EngravingOptions } from '../engraving-options.ts';
import { ALL_STAVES } from '../layout/spaces/reserve-spaces.ts';
import { STANDS_OVER } from '../markings/standing.ts';
import type { PageNotes } from '../pages/drawn-score.ts';
import type { SpaceDrawing } from '../pages/finish-system.ts';
import type { ClosingSection } from '../pages/words/closing-notes.ts';
import { drawWithNotes, type ProofPages } from '../proof/proof-pages.ts';
import { drawFileMarkings, drawOwnLeverWords, redrawnMarkings } from '../proof/report-notes.ts';
import { wordsOf } from '../words/words.ts';
import { type AttemptTelling, tellJudged, tellUnread } from './attempt-words.ts';
import { signIds } from './sign-ids.ts';
import { type StandingMarkings, signRows } from './sign-rows.ts';
import { drawCorrected, drawVerdict } from './verdict-sign.ts';

/** How a marked attempt looks. */
export interface MarkedLook extends Pick<EngravingChoice, 'naming' | 'language' | 'paper' | 'staffMm'> {
  /** Whether points are counted. */
  readonly points: boolean;
}

/**
 * Draws a part with the markings that a pupil has written, a sign at each and at what is missing, and the comments after
 * the last line.
 *
 * @returns the pages, or `layout-failed`
 */
export const drawAttempt = (
  score: Score,
  attempt: JudgedAttempt,
  { points, ...choice }: MarkedLook,
  form: 'svg' | 'pdf',
): Promise<Result<ProofPages>> =>
  drawWithNotes(score, (engraving) => notesOf(score, attempt, engraving, points), choice, form);

/** A change with the number of its comment; null for one that is right and needs none. */
interface Numbered {
  readonly change: JudgedChange;
  readonly number: number | null;
}

const notesOf = (
  score: Score,
  { harp, changes, unread, points }: JudgedAttempt,
  engraving: EngravingOptions,
  hasPoints: boolean,
): PageNotes => {
  const { language, naming } = engraving;
  const telling: AttemptTelling = { harp, language, naming };
  let last = 0;
  const numbered = changes.map((change: JudgedChange): Numbered => {
    if (change.verdict === 'right') return { change, number: null };
    last += 1;
    return { change, number: last };
  });
  const { marked } = wordsOf(engraving);
  const head = hasPoints ? `${marked.title}: ${marked.points(points.given, points.most)}` : marked.title;
  return {
    drawings: stackMoments([
      ...(harp === 'pedal' ? drawFileMarkings(score, engraving) : drawOwnLeverWords(score, engraving)),
      ...drawSigns(score, numbered, telling),
    ]),
    sections: [tellSummary(head, changes, engraving), tellComments(score, numbered, unread, telling)],
  };
};

/** What stands on one level at one moment is one room, so that signs stand under what they judge. */
const stackMoments = (drawings: readonly SpaceDrawing[]): readonly SpaceDrawing[] =>
  [...group(drawings, ({ at, line }) => `${rationalKey(at)};${line}`).values()].map((same) =>
    same.length === 1 ? same[0]! : stackRooms(same),
  );

const stackRooms = (rooms: readonly SpaceDrawing[]): SpaceDrawing => {
  const widthVu = Math.max(...rooms.map(({ box }) => box.widthVu));
  let heightVu = 0;
  const placed = rooms.map((room) => {
    const down = heightVu;
    heightVu += room.box.heightVu;
    return { room, right: (widthVu - room.box.widthVu) / 2, down };
  });
  const { id, at, bar, graceNote, line, staves } = rooms[0]!;
  return {
    ...{ id, at, bar, graceNote, line, staves, ...STANDS_OVER },
    box: { widthVu, heightVu },
    draw: (place) =>
      placed
        .map(({ room, right, down }) =>
          room.draw({
            ...place,
            x: place.x + right * place.unitsPerVu,
            y: place.y + down * place.unitsPerVu,
            ground: place.ground === null ? null : room.box,
          }),
        )
        .join(''),
  };
};

/** Between signs beside one another: as far as the names that they judge. */
const BETWEEN_SIGNS_VU = 1.7;

/** One drawing for each moment, its signs as the names stand that they judge. */
const drawSigns = (
  score: Score,
  numbered: readonly Numbered[],
  telling: AttemptTelling,
): readonly SpaceDrawing[] => {
  const byMoment = group(numbered, ({ change }) => rationalKey(change.at));
  const ids = signIds([...byMoment.keys()]);
  const standing = telling.harp === 'pedal' ? standingIn(score) : null;
  return [...byMoment].map(([moment, here]): SpaceDrawing => {
    const { at, bar } = here[0]!.change;
    const rows = signRows(here, standing).map((row) =>
      setBeside(
        row.map((each) => drawSign(each, telling)),
        BETWEEN_SIGNS_VU,
      ),
    );
    const art = stackDrawings(rows);
    const id = ids.get(moment)!;
    const title = here.map(({ change }) => tellJudged(score, change, telling)).join(' ');
    const verdicts = here.map(({ change }) => change.verdict).join(' ');
    return {
      ...{ id, at, bar, graceNote: null, ...STANDS_OVER },
      line: 'markings',
      staves: ALL_STAVES,
      box: art.box,
      draw: (place) =>
        drawingGroup(`id="${id}" class="judged-change" data-verdicts="${verdicts}"`, title, art, place),
    };
  });
};

const standingIn = (score: Score): StandingMarkings => {
  const drawn = redrawnMarkings(score);
  return { markings: score.markings, isDrawn: (marking) => drawn.has(marking) };
};

const drawSign = ({ change, number }: Numbered, { naming }: AttemptTelling): Drawing => {
  const { verdict, correction, stated } = change;
  const wanted = verdict === 'missing' ? stated : correction?.kind === 'write' ? correction.stated : [];
  return drawCorrected(drawVerdict(verdict, number), wanted, naming);
};

/** Points and counts, and what each sign means that the pages have. */
const tellSummary = (
  heading: string,
  changes: readonly JudgedChange[],
  engraving: EngravingOptions,
): ClosingSection => {
  const { marked } = wordsOf(engraving);
  const counts = countVerdicts(changes);
  return {
    heading,
    notes: [
      { art: null, text: `${marked.counts(counts)}.` },
      ...VERDICTS.filter((verdict) => counts[verdict] > 0).map((verdict) => ({
        art: drawVerdict(verdict, null),
        text: marked.meanings[verdict],
      })),
    ],
  };
};

const tellComments = (
  score: Score,
  numbered: readonly Numbered[],
  unread: JudgedAttempt['unread'],
  telling: AttemptTelling,
): ClosingSection => {
  const { marked } = wordsOf(telling);
  const commented = numbered.filter(({ number }) => number !== null);
  const notes = [
    ...commented.map(({ change, number }) => ({
      art: drawVerdict(change.verdict, number),
      text: tellJudged(score, change, telling),
    })),
    ...unread.map((each) => ({ art: null, text: tellUnread(score, each, telling) })),
  ];
  const allRight = telling.harp === 'lever' ? marked.lever.allRight : marked.allRight;
  return { heading: marked.faults, notes: notes.length > 0 ? notes : [{ art: null, text: allRight }] };
};
