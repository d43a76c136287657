import type { HarpPlan } from '../engine/harp-plan.ts';
import type { Remark, Score } from '../engine/score/model.ts';
import type { EngravingOptions } from './engraving-options.ts';
import type { PageTurn } from './layout/page-turns.ts';
import { LEVER_LOOKS } from './looks/lever-looks.ts';
import { printedBarNumber } from './markings/bar-number.ts';
import { countUnprintedMoves } from './markings/markings.ts';
import { markingsFor } from './markings/printed-markings.ts';
import type { EngravedPages } from './pages/engrave-pages.ts';

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
  const count = countUnprintedMoves(score, harp.plan, engraving, reminders);
  if (count === 0) return [];
  const moves = count === 1 ? 'One move is not printed' : `${count} moves are not printed`;
  return [{ code: 'moves-not-printed', bar: '', message: `${moves}: the settings alone are.` }];
};

/** Changes that were to be shown as notes, and have nothing to stand before. */
const namedChanges = (score: Score, harp: HarpPlan, engraving: EngravingOptions): Remark[] => {
  const wanted = LEVER_LOOKS[engraving.leverLook].kind;
  const named = markingsFor(score, harp, engraving).filter(
    ({ kind }) => kind === 'lever-change' && kind !== wanted,
  );
  if (named.length === 0) return [];
  const changes = named.length === 1 ? 'One lever change is' : `Lever changes at ${named.length} moments are`;
  const bars = nameBars(
    score,
    named.map(({ bar }) => bar),
  );
  const message = `${changes} printed by name: no note or rest begins there for a small note to stand before (${bars}).`;
  return [{ code: 'changes-by-name', bar: '', message }];
};

/** What the user should know about a file with markings. */
export const fileRemarks = ({ naming }: EngravingOptions): Remark[] =>
  naming === 'english'
    ? []
    : [
        {
          code: 'names-in-english',
          bar: '',
          message:
            'The names of notes are written into the file in English, as the proof and other programs read them; German and fixed-do names are for pages.',
        },
      ];

/** What the user should know about the pages. */
export const layoutRemarks = (score: Score, engraved: EngravedPages): Remark[] => [
  ...engraved.missing.map(
    (letter): Remark => ({
      code: 'letter-not-in-font',
      bar: '',
      message: `The character “${letter}” is not in the text font; the viewer's own font is used for it.`,
    }),
  ),
  ...engraved.turns.map((turn) => turnRemark(score, turn)),
  ...engraved.crowded.map(
    ({ page, overlaps }): Remark => ({
      code: 'page-crowded',
      bar: '',
      message: `On page ${page} there was no room for ${overlaps === 1 ? 'one marking' : `${overlaps} markings`} clear of everything else. A smaller staff or a larger page would help.`,
    }),
  ),
  ...(engraved.replacedMarkings === 0
    ? []
    : [
        {
          code: 'file-markings-replaced' as const,
          bar: '',
          message: `${engraved.replacedMarkings === 1 ? 'One pedal marking' : `${engraved.replacedMarkings} pedal markings`} of the file left the pages: ours stand in their place.`,
        },
      ]),
  ...addedAccidentals(score, engraved.accidentalsAdded),
  ...(engraved.breaksGivenUp
    ? [
        {
          code: 'breaks-not-kept' as const,
          bar: '',
          message:
            "The file's own breaks are not kept: it has none, or they do not fit this paper and staff size. Lines and pages were filled anew.",
        },
      ]
    : []),
];

/** As many bars as are named in one remark. */
const MOST_NAMED = 8;

const nameBars = (score: Score, bars: readonly number[]): string => {
  const numbers = [...new Set(bars)].map((bar) => printedBarNumber(score.bars[bar]!.number));
  const named = numbers.slice(0, MOST_NAMED).join(', ') + (numbers.length > MOST_NAMED ? ' and more' : '');
  return `${numbers.length === 1 ? 'bar' : 'bars'} ${named}`;
};

const addedAccidentals = (score: Score, added: readonly number[]): Remark[] => {
  if (added.length === 0) return [];
  const [signs, are] = added.length === 1 ? ['One accidental', 'is'] : [`${added.length} accidentals`, 'are'];
  return [
    {
      code: 'accidentals-added',
      bar: '',
      message: `${signs} that the file leaves out ${are} printed on the pages, since its notes sound so (${nameBars(score, added)}).`,
    },
  ];
};

const turnRemark = (score: Score, { page, bar, free, seconds }: PageTurn): Remark => {
  const number = printedBarNumber(score.bars[bar]!.number);
  const time = Number.isFinite(seconds) ? `${seconds.toFixed(1)} seconds` : 'all the time needed';
  const place = `The page turn after page ${page}, before bar ${number},`;
  switch (free) {
    case 'both-hands':
      return { code: 'page-turn', bar: number, message: `${place} falls on a rest: ${time}.` };
    case 'one-hand':
      return { code: 'page-turn', bar: number, message: `${place} leaves one hand free: ${time}.` };
    case 'none':
      return {
        code: 'page-turn',
        bar: number,
        message: `${place} has no rest: copy the next lines out, or play them by heart.`,
      };
  }
};
