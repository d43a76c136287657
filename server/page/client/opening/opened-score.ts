import { useReducer, useRef, useState } from 'preact/hooks';
import type { PartSummary, TuneSummary } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { useSignOfUse } from '../controls/sign-of-use.ts';
import { followHistory } from '../decisions/history/decision-history.ts';
import { browserMemory } from '../memory/browser-memory.ts';
import { keepDecisions, keyOfFile, recallDecisions } from '../memory/kept-decisions.ts';
import { openingChoices } from '../memory/opening-choices.ts';
import { keepHistory, recallHistory } from '../memory/session-history.ts';
import { leverChoicesOf, planChoicesOf } from '../options/choices.ts';
import { type EngineClient, type ScoreToOpen, startEngine } from '../planner/engine-client.ts';
import type { EngineReport, EngineStage, OpenedLevers, OpenedPart } from '../planner/engine-messages.ts';
import { handView, viewOf } from '../score/score-view.ts';
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
  /** The file is null where it could not even be had. */
  | {
      readonly kind: 'refused';
      readonly name: string;
      readonly sentence: string;
      readonly file: ScoreFile | null;
    }
  | { readonly kind: 'open'; readonly file: ScoreFile; readonly opened: OpenedPart }
  | { readonly kind: 'open-levers'; readonly file: ScoreFile; readonly opened: OpenedLevers };

type Step =
  | { readonly kind: 'begin'; readonly file: ScoreFile }
  | { readonly kind: 'close' }
  | {
      readonly kind: 'refuse';
      readonly name: string;
      readonly sentence: string;
      readonly file: ScoreFile | null;
    }
  | {
      readonly kind: 'report';
      readonly file: ScoreFile;
      readonly report: EngineReport;
      /** The open file whose place it takes; null where it takes whatever there is. */
      readonly of: ScoreFile | null;
    };

const advance = (before: ScoreStage, step: Step): ScoreStage => {
  if (step.kind === 'begin') return { kind: 'working', file: step.file, stage: 'reading' };
  if (step.kind === 'close') return { kind: 'none' };
  if (step.kind === 'refuse') return { ...step, kind: 'refused' };
  const { file, report, of } = step;
  // Another piece may have been opened meanwhile.
  if (of !== null && fileIn(before) !== of) return before;
  switch (report.kind) {
    case 'stage':
      return { kind: 'working', file, stage: report.stage };
    case 'parts':
      return { kind: 'parts', file, parts: report.parts, silentHarp: report.silentHarp };
    case 'tunes':
      return { kind: 'tunes', file, tunes: report.tunes };
    case 'refused':
      return { kind: 'refused', name: file.name, sentence: report.sentence, file };
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

/** The file that a view is about; null where there is none. */
export const fileIn = (stage: ScoreStage): ScoreFile | null => (stage.kind === 'none' ? null : stage.file);

/** What became of a save of the open file. */
export type Renewal =
  | { readonly kind: 'renewed'; readonly changes: readonly string[] }
  | { readonly kind: 'unusable'; readonly sentence: string };

export interface ScoreOpener {
  readonly stage: ScoreStage;
  readonly open: (file: ScoreFile) => void;
  /**
   * Lets the next save of an open file take its place, with the user's decisions, their steps and the view of it. Where
   * it cannot be used, the open one stays.
   */
  readonly renew: (from: ScoreFile, to: ScoreFile, onTold: (told: Renewal) => void) => void;
  readonly refuse: (name: string, sentence: string) => void;
  /** Back to the first view. */
  readonly close: () => void;
  /** What plans the open score anew or otherwise. */
  readonly planning: Omit<EngineClient, 'open' | 'renew'>;
}

const describeFile = (file: ScoreFile): Omit<ScoreToOpen, keyof ReturnType<typeof recallWork>> => {
  const { bytes, name: fileName, part, tune = null, movement = null, instrument = null } = file;
  return { bytes, fileName, part, tune, movement, instrument };
};

/** What the user has decided and chosen about a file, in this session or before. */
const recallWork = (file: ScoreFile): Pick<ScoreToOpen, 'kept' | 'choices' | 'leverChoices'> => {
  const chosen = viewOf(file)?.choices;
  return {
    kept:
      recallHistory(file)?.present ?? recallDecisions(browserMemory, keyOfFile(file)) ?? file.decided ?? null,
    choices: planChoicesOf(chosen?.pedal ?? openingChoices('pedal', file)),
    leverChoices: leverChoicesOf(chosen?.lever ?? openingChoices('lever', file)),
  };
};

/** Why a save cannot take the place of the one before. */
const explainUnusable = (report: EngineReport): string => {
  if (report.kind === 'refused') return report.sentence;
  return report.kind === 'tunes' ? STRINGS.followed.noTune : STRINGS.followed.noHarp;
};

/**
 * @param shown the request by which the open file was opened
 * @param onOpened it was read and planned with all that the user has decided by now, which is handed on to it
 */
const renewIn = (
  engine: EngineClient,
  shown: number,
  from: ScoreFile,
  to: ScoreFile,
  onTold: (told: Renewal) => void,
  onOpened: (report: EngineReport) => void,
): void => {
  const work = recallWork(from);
  engine.renew({ ...describeFile(to), ...work }, shown, (report) => {
    if (report.kind === 'opened' || report.kind === 'opened-levers') {
      // The user went on deciding meanwhile.
      if (JSON.stringify(recallWork(from)) !== JSON.stringify(work))
        return renewIn(engine, shown, from, to, onTold, onOpened);
      const history = recallHistory(from);
      const { bars } = report;
      if (history !== null) keepHistory(to, bars === null ? history : followHistory(history, bars));
      if (work.kept !== null) keepDecisions(browserMemory, keyOfFile(to), report.opened.decisions);
      handView(from, to);
      onOpened(report);
      onTold({ kind: 'renewed', changes: report.changes });
    } else if (report.kind !== 'stage') onTold({ kind: 'unusable', sentence: explainUnusable(report) });
  });
};

/** Opens scores one after the other: the last one chosen counts. */
export const useScoreOpener = (): ScoreOpener => {
  const [stage, step] = useReducer(advance, { kind: 'none' });
  const engine = useRef<EngineClient | null>(null);
  const refuse = (name: string, sentence: string, file: ScoreFile | null = null): void =>
    step({ kind: 'refuse', name, sentence, file });
  const opening = useRef<ScoreFile | null>(null);
  const shown = useRef(0);
  const take = (file: ScoreFile, report: EngineReport, of: ScoreFile | null): void => {
    if (report.kind === 'opened' || report.kind === 'opened-levers') shown.current = report.request;
    step({ kind: 'report', file, report, of });
  };
  const engineReady = (): EngineClient => {
    engine.current ??= startEngine(() => {
      // A thread that crashed answers no more: the next score gets a new one.
      engine.current = null;
      refuse(opening.current?.name ?? '', STRINGS.refused.crashed, opening.current);
    });
    return engine.current;
  };
  useSignOfUse(() => void engineReady());
  const open = (file: ScoreFile): void => {
    step({ kind: 'begin', file });
    opening.current = file;
    engineReady().open({ ...describeFile(file), ...recallWork(file) }, (report) => take(file, report, null));
  };
  const renew: ScoreOpener['renew'] = (from, to, onTold) => {
    opening.current = to;
    renewIn(engineReady(), shown.current, from, to, onTold, (report) => take(to, report, from));
  };
  const [planning] = useState((): ScoreOpener['planning'] => ({
    replan: (...asked) => engineReady().replan(...asked),
    replanLevers: (...asked) => engineReady().replanLevers(...asked),
    planOther: (...asked) => engineReady().planOther(...asked),
    planOtherLevers: (...asked) => engineReady().planOtherLevers(...asked),
    tryLevers: (...asked) => engineReady().tryLevers(...asked),
  }));
  const close = (): void => step({ kind: 'close' });
  return { stage, open, renew, close, refuse, planning };
};
