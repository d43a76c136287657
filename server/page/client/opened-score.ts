import { useEffect, useMemo, useReducer, useRef, useState } from 'preact/hooks';
import type { PartSummary } from '../../../engine/problem.ts';
import { STRINGS } from '../strings.ts';
import { fetchPages, type ScoreFile } from './annotate-request.ts';
import type { Choices } from './choices.ts';
import { type EngineClient, startEngine } from './engine-client.ts';
import type { EngineReport, EngineStage } from './engine-messages.ts';
import { indexPages, type PageIndex } from './page-markings.ts';
import type { PlannedPart } from './planned-part.ts';

/** How far a score has come. */
export type ScoreStage =
  | { readonly kind: 'none' }
  | { readonly kind: 'working'; readonly file: ScoreFile; readonly stage: EngineStage }
  | { readonly kind: 'parts'; readonly file: ScoreFile; readonly parts: readonly PartSummary[] }
  | { readonly kind: 'refused'; readonly name: string; readonly sentence: string }
  | { readonly kind: 'open'; readonly file: ScoreFile; readonly part: PlannedPart };

type Step =
  | { readonly kind: 'begin'; readonly file: ScoreFile }
  | { readonly kind: 'refuse'; readonly name: string; readonly sentence: string }
  | { readonly kind: 'report'; readonly file: ScoreFile; readonly report: EngineReport };

const take = (_before: ScoreStage, step: Step): ScoreStage => {
  if (step.kind === 'begin') return { kind: 'working', file: step.file, stage: 'reading' };
  if (step.kind === 'refuse') return { kind: 'refused', name: step.name, sentence: step.sentence };
  const { file, report } = step;
  switch (report.kind) {
    case 'stage':
      return { kind: 'working', file, stage: report.stage };
    case 'parts':
      return { kind: 'parts', file, parts: report.parts };
    case 'refused':
      return { kind: 'refused', name: file.name, sentence: report.sentence };
    case 'planned':
      return { kind: 'open', file, part: report.part };
  }
};

export interface ScoreOpener {
  readonly stage: ScoreStage;
  readonly open: (file: ScoreFile) => void;
  readonly refuse: (name: string, sentence: string) => void;
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
  // Loaded while the user still looks for a file.
  useEffect(() => void engineReady(), []);
  const open = (file: ScoreFile): void => {
    step({ kind: 'begin', file });
    opening.current = file.name;
    engineReady().open(file.bytes, file.part, (report) => step({ kind: 'report', file, report }));
  };
  return { stage, open, refuse };
};

/** The pages of the open score as the service draws them. */
export type DrawnPages =
  | { readonly kind: 'drawing' }
  | { readonly kind: 'drawn'; readonly pages: readonly string[]; readonly index: PageIndex }
  | { readonly kind: 'failed'; readonly sentence: string };

/** Asks for the pages whenever the score or the look changes; an answer that is no longer wanted is given up. */
export const usePages = (
  file: ScoreFile,
  part: PlannedPart,
  choices: Choices,
): { readonly drawn: DrawnPages; readonly redraw: () => void } => {
  const [drawn, setDrawn] = useState<DrawnPages>({ kind: 'drawing' });
  const [attempt, setAttempt] = useState(0);
  const barIds = useMemo(() => part.bars.map(({ id }) => id), [part]);
  useEffect(() => {
    const leaving = new AbortController();
    setDrawn({ kind: 'drawing' });
    fetchPages(file, choices, leaving.signal).then(
      (answer) => {
        if (leaving.signal.aborted) return;
        setDrawn(
          answer.ok
            ? { kind: 'drawn', pages: answer.value, index: indexPages(answer.value, barIds, part.plan) }
            : { kind: 'failed', sentence: answer.sentence },
        );
      },
      (error) => {
        if (!leaving.signal.aborted) throw error;
      },
    );
    return () => leaving.abort();
  }, [file, part, choices, attempt]);
  return { drawn, redraw: () => setAttempt((n) => n + 1) };
};
