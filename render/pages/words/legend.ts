import { FEET, type Foot, type HarpPlan } from '../../../engine/index.ts';
import { drawMarking } from '../../draw/draw-marking.ts';
import { drawPlaceNumber } from '../../draw/place-number.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import { tellTuning } from '../../facts/tell-tuning.ts';
import { drawLeverChange, drawLeverTableAlone, drawReminder } from '../../levers/draw-levers.ts';
import type { LeverMarking } from '../../levers/lever-markings.ts';
import { timeInWords } from '../../levers/lever-words.ts';
import type { PedalChange } from '../../markings/markings.ts';
import { type Marking, returnTime } from '../../markings/markings.ts';
import { nameNote } from '../../markings/note-names.ts';
import type { PrintedMarking } from '../../markings/printed-markings.ts';
import type { UnplayablePlace } from '../../markings/unplayable-places.ts';
import { nameStrings } from '../../part/signs/string-names.ts';
import { wordsOf } from '../../words/words.ts';
import type { PlacedHarp } from '../drawn-score.ts';
import type { ClosingNote, ClosingSection } from './closing-notes.ts';

type PedalMarking<Kind extends Marking['kind']> = Marking & { readonly kind: Kind };

/** What the signs of a part mean, each with one of those that stand in it. */
export const pedalLegend = (
  printed: readonly PrintedMarking[],
  flags: readonly UnplayablePlace[],
  engraving: EngravingOptions,
): ClosingSection => {
  const { inWords, labelled, legend } = wordsOf(engraving);
  const markings = printed.filter(
    (each): each is Marking => each.kind === 'setting' || each.kind === 'change',
  );
  const settings = markings.filter((each): each is PedalMarking<'setting'> => each.kind === 'setting');
  const changes = markings.filter((each): each is PedalMarking<'change'> => each.kind === 'change');
  const explain = (
    marking: Marking | undefined,
    text: string | ((marking: Marking) => string),
  ): ClosingNote[] =>
    marking === undefined
      ? []
      : [{ art: drawMarking(marking, engraving), text: typeof text === 'string' ? text : text(marking) }];
  const hasMoved = (each: PedalMarking<'setting'>): boolean =>
    each.moved.length > 0 || (engraving.circleChanged && each.changed.length > 0);
  return {
    heading: legend.pedalTitle,
    notes: [
      ...explain(settings[0] && plainSetting(settings[0]), settingWords(engraving)),
      ...explain(settings.find(hasMoved), engraving.circleChanged ? legend.changed : legend.moved),
      ...explain(changes[0] && plainChange(changes[0]), legend.change[engraving.marksAt]),
      ...explain(
        changes.find(({ left, right }) => left.length > 0 && right.length > 0),
        legend.rows,
      ),
      ...explain(
        changes.find(({ withNote }) => withNote) ?? settings.find(({ withNote }) => withNote),
        legend.withNote,
      ),
      ...explain(
        changes.find(({ cannotWait }) => cannotWait.length > 0),
        legend.cannotWait,
      ),
      ...explain(
        settings.find(({ firstTimeOnly }) => firstTimeOnly),
        labelled(inWords.times.first, legend.firstTime),
      ),
      ...explain(
        markings.find(({ onReturn }) => onReturn.length > 0),
        (marking) => labelled(returnTime(marking, inWords.times), legend.onReturn),
      ),
      ...explainNumbers(flags, engraving),
    ],
  };
};

const explainNumbers = (
  flags: readonly UnplayablePlace[],
  engraving: EngravingOptions,
): readonly ClosingNote[] =>
  flags
    .slice(0, 1)
    .map(({ number }) => ({ art: drawPlaceNumber(number), text: wordsOf(engraving).legend.unplayable }));

/** The same for levers. */
export const leverLegend = (
  printed: readonly PrintedMarking[],
  flags: readonly UnplayablePlace[],
  engraving: EngravingOptions,
): ClosingSection => {
  const { leverHands, leverLook } = engraving;
  const { inWords, labelled, legend, reading } = wordsOf(engraving);
  const tables = printed.filter((each) => each.kind === 'levers');
  const [start] = tables;
  const onceOnly = tables.find(({ firstTimeOnly }) => firstTimeOnly);
  const changes = printed.filter((each) => each.kind === 'lever-change');
  const [change] = changes;
  const again = changes.find(({ onReturn }) => onReturn.length > 0);
  const timed = changes.find(({ atOneTime }) => atOneTime.length > 0);
  const sentence = [reading.leverChange[leverLook], ...(leverHands ? [reading.leverHands] : [])].join(' ');
  return {
    heading: legend.leverTitle,
    notes: [
      ...(start === undefined
        ? []
        : [{ art: drawLeverTableAlone(start, engraving), text: reading.leverTable }]),
      ...(change === undefined
        ? []
        : [{ art: drawLeverChange(plainLeverChange(change), engraving), text: sentence }]),
      ...(onceOnly === undefined
        ? []
        : [
            {
              art: drawReminder(onceOnly, engraving),
              text: labelled(inWords.times.first, legend.leverFirstTime),
            },
          ]),
      ...(again === undefined
        ? []
        : [
            {
              art: drawLeverChange({ ...again, inWords: [] }, engraving),
              text: labelled(returnTime(again, inWords.times), legend.leverOnReturn),
            },
          ]),
      ...(timed === undefined
        ? []
        : [
            {
              art: drawLeverChange(timedLeverChange(timed), { ...engraving, leverHands: false }),
              text: labelled(
                timeInWords(timed.atOneTime[0]!.time, timed, inWords.times),
                legend.leverAtOneTime,
              ),
            },
          ]),
      ...explainNumbers(flags, engraving),
    ],
  };
};

/** What of the tuning no player should miss: levered strings that are tuned higher than usual. */
export const tuningWords = (harp: HarpPlan, engraving: EngravingOptions): readonly string[] => {
  const words = wordsOf(engraving);
  const { sentences, raises } = tellTuning(harp, engraving.naming, words);
  return harp.kind === 'lever' && raises ? [[...sentences, words.tuning.caution].join(' ')] : [];
};

/** What of a part wants words and has no sign: names of strings over notes, and what of the tuning is to be known. */
export const legendWords = (
  { score, plan: harp }: Pick<PlacedHarp, 'score' | 'plan'>,
  engraving: EngravingOptions,
): readonly string[] => {
  const words = wordsOf(engraving);
  const isNamed = nameStrings(score, harp.plan.respellings, engraving).size > 0;
  return [...(isNamed ? [words.reading.strings] : []), ...tuningWords(harp, engraving)];
};

const settingWords = (engraving: EngravingOptions): string => {
  const { setting } = wordsOf(engraving).legend;
  const pedals = (foot: Foot): string =>
    FEET[foot].map((letter) => nameNote(letter, 0, engraving.naming).word).join(' ');
  const tell = engraving.settingLook === 'diagram' ? setting.diagram : setting.letters;
  return tell(pedals('left'), pedals('right'));
};

const plainSetting = (marking: PedalMarking<'setting'>): Marking => ({
  ...marking,
  ...{ changed: [], moved: [], firstTimeOnly: false, withNote: false, onReturn: [] },
});

const plainChange = (marking: PedalMarking<'change'>): Marking => {
  const first: readonly PedalChange[] = [...marking.left, ...marking.right, ...marking.onReturn].slice(0, 1);
  return { ...marking, left: first, right: [], withNote: false, onReturn: [] };
};

const plainLeverChange = (marking: LeverMarking & { readonly kind: 'lever-change' }) => ({
  ...marking,
  changes: [...marking.changes, ...marking.onReturn].slice(0, 1),
  ...{ onReturn: [], atOneTime: [], inWords: [] },
});

const timedLeverChange = (marking: LeverMarking & { readonly kind: 'lever-change' }) => {
  const changes = marking.atOneTime.slice(0, 1);
  return { ...marking, changes, atOneTime: changes, onReturn: [], inWords: [] };
};
