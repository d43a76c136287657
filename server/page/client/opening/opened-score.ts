import { useReducer, useRef, useState } from 'preact/hooks';
import type { PartSummary, TuneSummary } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { useSignOfUse } from '../controls/sign-of-use.ts';
import { browserMemory } from '../memory/browser-memory.ts';
import { keyOfFile, recallDecisions } from '../memory/kept-decisions.ts';
import { recallChoices } from '../memory/remembered-choices.ts';
import { recallHistory } from '../memory/session-history.ts';
import { leverChoicesOf, openingChoices, planChoicesOf } from '../options/choices.ts';
import { type EngineClient, startEngine } from '../planner/engine-client.ts';
import type { EngineReport, EngineStage, OpenedLevers, OpenedPart } from '../planner/engine-messages.ts';
import type { ScoreFile } from '../service/annotate-request.ts';

/** How far a score has come. */
export type ScoreStage =
  | { readonly kind: 'none' }
  | { readonly kind: 'working'; readonly file: ScoreFile; readonly stage: EngineStage }
  | {
      readonly kind: 'parts';
      readonly file: ScoreFile;
      readonly parts: readonly PartSummary[];
      readonly silentHarp: string | null;
    }
  | { readonly kind: 'tunes'; readonly file: ScoreFile; readonly tunes: readonly TuneSummary[] }
  | { readonly kind: 'refused'; readonly name: string; readonly sentence: string }
  | { readonly kind: 'open'; readonly file: ScoreFile; readonly opened: OpenedPart }
  | { readonly kind: 'open-levers'; readonly file: ScoreFile; readonly opened: OpenedLevers };

type Step =
  | { readonly kind: 'begin'; readonly file: ScoreFile }
  | { readonly kind: 'close' }
  | { readonly kind: 'refuse'; readonly name: string; readonly sentence: string }
  | { readonly kind: 'report'; readonly file: ScoreFile; readonly report: EngineReport };

const take = (before: ScoreStage, step: Step): ScoreStage => {
  if (step.kind === 'begin') return { kind: 'working', file: step.file, stage: 'reading' };
  if (step.kind === 'close') return { kind: 'none' };
  if (step.kind === 'refuse') return { kind: 'refused', name: step.name, sentence: step.sentence };
  const { file, report } = step;
  switch (report.kind) {
    case 'stage':
      return { kind: 'working', file, stage: report.stage };
    case 'parts':
      return { kind: 'parts', file, parts: report.parts, silentHarp: report.silentHarp };
    case 'tunes':
      return { kind: 'tunes', file, tunes: report.tunes };
    case 'refused':
      return { kind: 'refused', name: file.name, sentence: report.sentence };
    case 'opened':
      return { kind: 'open', file, opened: report.opened };
    case 'opened-levers': {
      const { harp, isHarpOfTunes } = report.opened;
      const named = isHarpOfTunes ? { ...file, instrument: harp } : file;
      return { kind: 'open-levers', file: named, opened: report.opened };
    }
    case 'replanned':
    case 'replanned-levers':
    case 'planned-other':
    case 'planned-other-levers':
      return before;
  }
};

export interface ScoreOpener {
  readonly stage: ScoreStage;
  readonly open: (file: ScoreFile) => void;
  readonly refuse: (name: string, sentence: string) => void;
  /** Back to the first view. */
  readonly close: () => void;
  /** What plans the open score anew or otherwise. */
  readonly planning: Omit<EngineClient, 'open'>;
}

/** Opens scores one after the other: the last one chosen counts. */
export const useScoreOpener = (): ScoreOpener => {
  const [stage, step] = useReducer(take, { kind: 'none' });
  const engine = useRef<EngineClient | null>(null);
  const refuse = (name: string, sentence: string): void => step({ kind: 'refuse', name, sentence });
  const opening = useRef('');
  const engineReady = (): EngineClient => {
    engine.current ??= startEngine(() => {
      // A thread that crashed answers no more: the next score gets a new one.
      engine.current = null;
      refuse(opening.current, STRINGS.refused.crashed);
    });
    return engine.current;
  };
  useSignOfUse(() => void engineReady());
  const open = (file: ScoreFile): void => {
    step({ kind: 'begin', file });
    opening.current = file.name;
    const { bytes, name: fileName, part, tune = null, movement = null, instrument = null } = file;
    const kept = recallHistory(file)?.present ?? recallDecisions(browserMemory, keyOfFile(file));
    const asked = { bytes, fileName, part, tune, movement, instrument, kept };
    const choices = planChoicesOf(recallChoices());
    engineReady().open({ ...asked, choices, leverChoices: leverChoicesOf(openingChoices(file)) }, (report) =>
      step({ kind: 'report', file, report }),
    );
  };
  const [planning] = useState((): ScoreOpener['planning'] => ({
    replan: (...asked) => engineReady().replan(...asked),
    replanLevers: (...asked) => engineReady().replanLevers(...asked),
    planOther: (...asked) => engineReady().planOther(...asked),
    planOtherLevers: (...asked) => engineReady().planOtherLevers(...asked),
    tryLevers: (...asked) => engineReady().tryLevers(...asked),
  }));
  const close = (): void => step({ kind: 'close' });
  return { stage, open, close, refuse, planning };
};
