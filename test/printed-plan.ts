import type { Position } from '../engine/harp/setting.ts';
import type { Letter } from '../engine/music/pitch.ts';
import type { Plan } from '../engine/pedals/model.ts';
import type { SourceMarking } from '../engine/score/model/markings.ts';
import type { Score } from '../engine/score/model/score.ts';
import { completeEngraving, type EngravingChoice } from '../render/engraving-options.ts';
import { allChanges, chooseMarkings } from '../render/markings/markings.ts';

const NOWHERE = { start: 0, end: 0 };

/** The markings that tell a plan, as a file would hold them. */
export const printPlan = (score: Score, plan: Plan, choice: EngravingChoice = {}): SourceMarking[] =>
  chooseMarkings(score, plan, completeEngraving(choice)).map((marking): SourceMarking => {
    const { at, bar } = marking;
    const positions: Partial<Record<Letter, Position>> =
      marking.kind === 'setting'
        ? marking.setting
        : Object.fromEntries(allChanges(marking).map(({ letter, position }) => [letter, position]));
    return { at, bar, span: NOWHERE, form: 'words', positions, ahead: false, text: '' };
  });
