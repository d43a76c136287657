import { drawMarking } from '../../draw/draw-marking.ts';
import { drawPlaceNumber } from '../../draw/place-number.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import { drawLeverChange, drawLeverTableAlone } from '../../levers/draw-levers.ts';
import type { PedalChange } from '../../markings/markings.ts';
import { FIRST_TIME, type Marking, returnWords } from '../../markings/markings.ts';
import type { PrintedMarking } from '../../markings/printed-markings.ts';
import type { UnplayablePlace } from '../../markings/unplayable-places.ts';
import { ENGLISH } from '../../words/english/english.ts';
import type { ClosingNote, ClosingSection } from './closing-notes.ts';

type PedalMarking<Kind extends Marking['kind']> = Marking & { readonly kind: Kind };

/** What the signs of a part mean, each with one of those that stand in it. */
export const pedalLegend = (
  printed: readonly PrintedMarking[],
  flags: readonly UnplayablePlace[],
  engraving: EngravingOptions,
): ClosingSection => {
  const markings = printed.filter(
    (each): each is Marking => each.kind === 'setting' || each.kind === 'change',
  );
  const settings = markings.filter((each): each is PedalMarking<'setting'> => each.kind === 'setting');
  const changes = markings.filter((each): each is PedalMarking<'change'> => each.kind === 'change');
  const explain = (marking: Marking | undefined, text: string): ClosingNote[] =>
    marking === undefined ? [] : [{ art: drawMarking(marking, engraving), text }];
  const hasMoved = (each: PedalMarking<'setting'>): boolean =>
    each.moved.length > 0 || (engraving.circleChanged && each.changed.length > 0);
  const returning = markings.find(({ onReturn }) => onReturn.length > 0);
  return {
    heading: 'How to read the pedal markings',
    notes: [
      ...explain(settings[0] && plainSetting(settings[0]), settingWords(engraving)),
      ...explain(settings.find(hasMoved), movedWords(engraving)),
      ...explain(changes[0] && plainChange(changes[0]), CHANGE_WORDS[engraving.marksAt]),
      ...explain(
        changes.find(({ withNote }) => withNote) ?? settings.find(({ withNote }) => withNote),
        'With the wedge: move exactly with the note, because until then a string of this pedal sounds.',
      ),
      ...explain(
        settings.find(({ firstTimeOnly }) => firstTimeOnly),
        `${FIRST_TIME}: the setting is for the first time only; when the music comes back here, other pedals have moved.`,
      ),
      ...explain(
        returning,
        returning === undefined
          ? ''
          : `${returnWords(returning)}: move only when the music comes back here; before that the pedal stands there already.`,
      ),
      ...flags.slice(0, 1).map(
        ({ number }): ClosingNote => ({
          art: drawPlaceNumber(number),
          text: 'A place that is not playable as printed; the list says why.',
        }),
      ),
    ],
  };
};

/** The same for levers. */
export const leverLegend = (
  printed: readonly PrintedMarking[],
  engraving: EngravingOptions,
): ClosingSection => {
  const { leverHands, leverLook } = engraving;
  const { reading } = ENGLISH;
  const [start] = printed.filter((each) => each.kind === 'levers');
  const [change] = printed.filter((each) => each.kind === 'lever-change');
  const sentence = [reading.leverChange[leverLook], ...(leverHands ? [reading.leverHands] : [])].join(' ');
  return {
    heading: 'How to read the lever markings',
    notes: [
      ...(start === undefined
        ? []
        : [{ art: drawLeverTableAlone(start, engraving), text: reading.leverTable }]),
      ...(change === undefined
        ? []
        : [{ art: drawLeverChange(change.changes.slice(0, 1), engraving), text: sentence }]),
    ],
  };
};

const CHANGE_WORDS: Readonly<Record<EngravingOptions['marksAt'], string>> = {
  foot: 'A change ends before the note that needs it, where the foot moves; the upper row is for the right foot.',
  note: 'A change stands at the note that needs it: the foot moves before that note; the upper row is for the right foot.',
};

const settingWords = ({ settingLook }: EngravingOptions): string =>
  settingLook === 'diagram'
    ? 'All pedals in their order, left foot D C B, right foot E F G A: above the line flat, on it natural, below it sharp.'
    : 'All pedals: left foot D C B, right foot E F G A.';

const movedWords = ({ circleChanged }: EngravingOptions): string =>
  circleChanged ? 'Ringed: moved here or since the last full setting.' : 'Ringed: moves here.';

const plainSetting = (marking: PedalMarking<'setting'>): Marking => ({
  ...marking,
  ...{ changed: [], moved: [], firstTimeOnly: false, withNote: false, onReturn: [] },
});

const plainChange = (marking: PedalMarking<'change'>): Marking => {
  const first: readonly PedalChange[] = [...marking.left, ...marking.right, ...marking.onReturn].slice(0, 1);
  return { ...marking, left: first, right: [], withNote: false, onReturn: [] };
};
