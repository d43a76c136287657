import {
  callNotes,
  formatChange,
  type LeverDecisionPin,
  type NotesAt,
  type PedalDecisionPin,
  type Place,
  positionNamed,
  tempoFigure,
} from '../../../../engine/index.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Decision } from './decision-edits.ts';

const words = STRINGS.decisions;

type Bars = Pick<PlannedPart, 'bars'>;

export const namePlace = ({ bars }: Bars, { barIndex: bar, beat }: Place): string =>
  words.place(bars[bar]?.name ?? `${bar + 1}`, beat);

const nameAim = (pin: PedalDecisionPin | LeverDecisionPin): string =>
  'pedal' in pin
    ? formatChange(pin.pedal, positionNamed(pin.position))
    : LEVER_STRINGS.detail.to(pin.lever, pin.to);

/** In the note that is counted in the bar. */
const nameTempo = ({ bars }: Bars, { barIndex }: Place, quartersPerMinute: number): string => {
  const unit = bars[barIndex]?.tempoUnit ?? { sign: '♩', quarters: 1 };
  return `${unit.sign} = ${tempoFigure(quartersPerMinute, unit)}`;
};

/** Their staff is named where the decision names it: notes of the other staff are not meant. */
const nameNotes = (notes: NotesAt): string =>
  notes.staff === undefined ? callNotes(notes) : words.onStaff(callNotes(notes), notes.staff);

/** A decision in plain words. */
export const describeDecision = (part: Bars, decision: Decision): string => {
  const at = (place: Place): string => namePlace(part, place);
  switch (decision.kind) {
    case 'pin': {
      const { pin } = decision;
      if (pin.kind === 'move') return words.move(nameAim(pin), at(pin.at));
      if (pin.kind === 'lever-move')
        return LEVER_STRINGS.decisions.move(nameAim(pin), at(pin.at), pin.hand ?? null);
      if (pin.kind === 'forbid') return words.forbid(at(pin.from), at(pin.until));
      return words.position(nameAim(pin), at(pin.from), pin.until === null ? words.end : at(pin.until));
    }
    case 'respell':
      return words.respell(nameNotes(decision.notes), at(decision.notes), decision.notes.to);
    case 'omit':
      return words.omit(nameNotes(decision.notes), at(decision.notes));
    case 'delay':
      return words.delay(nameNotes(decision.notes), at(decision.notes), decision.notes.toBeat);
    case 'setting':
      return (decision.setting.print ? words.print : words.doNotPrint)(at(decision.setting));
    case 'cue':
      return words.cue(decision.cue.part, at(decision.cue));
    case 'tempo': {
      const { from, until, quartersPerMinute } = decision.tempo;
      return words.tempo(
        nameTempo(part, from, quartersPerMinute),
        at(from),
        until === null ? words.end : at(until),
      );
    }
  }
};
