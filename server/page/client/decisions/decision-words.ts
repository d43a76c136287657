import { formatChange, type Place, positionNamed } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Decision } from './decision-edits.ts';

const words = STRINGS.decisions;

type Bars = Pick<PlannedPart, 'bars'>;

export const namePlace = ({ bars }: Bars, { bar, beat }: Place): string =>
  words.place(bars[bar]?.number ?? `${bar + 1}`, beat);

/** A decision in plain words. */
export const describeDecision = (part: Bars, decision: Decision): string => {
  const at = (place: Place): string => namePlace(part, place);
  switch (decision.kind) {
    case 'pin': {
      const { pin } = decision;
      if (pin.kind === 'move')
        return words.move(formatChange(pin.pedal, positionNamed(pin.position)), at(pin.at));
      if (pin.kind === 'forbid') return words.forbid(at(pin.from), at(pin.until));
      const until = pin.until === null ? words.end : at(pin.until);
      return words.position(formatChange(pin.pedal, positionNamed(pin.position)), at(pin.from), until);
    }
    case 'respell':
      return words.respell(decision.notes.pitch, at(decision.notes), decision.notes.to);
    case 'omit':
      return words.omit(decision.notes.pitch, at(decision.notes));
    case 'setting':
      return (decision.setting.print ? words.print : words.doNotPrint)(at(decision.setting));
    case 'cue':
      return words.cue(decision.cue.part, at(decision.cue));
  }
};
