import { useEffect, useRef } from 'preact/hooks';
import { namePiece } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { readAddress, writeAddress } from '../memory/address.ts';
import { browserMemory, windowMemory } from '../memory/browser-memory.ts';
import { keyOfFile, recallDecisions } from '../memory/kept-decisions.ts';
import { keepPlace, recallPlace } from '../memory/kept-place.ts';
import { keepSteps, recallSteps } from '../memory/kept-steps.ts';
import { keepPiece, recallPiece } from '../memory/recent-pieces.ts';
import { keepHistory, recallHistory } from '../memory/session-history.ts';
import { openAt, viewOf } from '../score/score-view.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import type { ScoreOpener, ScoreStage } from './opened-score.ts';

/** The piece that is open, or the tune book. */
const openedIn = (stage: ScoreStage): { readonly file: ScoreFile; readonly title: string } | null => {
  if (stage.kind === 'tunes') return { file: stage.file, title: '' };
  return stage.kind === 'open' || stage.kind === 'open-levers'
    ? { file: stage.file, title: namePiece(stage.opened.part.titles) }
    : null;
};

/** Keeps where in a piece the user was, and what can be undone. */
const leavePlace = (file: ScoreFile | null): void => {
  if (file === null) return;
  const key = keyOfFile(file);
  const bar = viewOf(file)?.bar ?? null;
  if (bar !== null) keepPlace(windowMemory, key, bar);
  const history = recallHistory(file);
  if (history !== null) keepSteps(windowMemory, key, history);
};

/** Takes up what can be undone, unless the piece was worked on in another window since. */
const takeUpSteps = (file: ScoreFile, key: string): void => {
  const steps = recallSteps(windowMemory, key);
  const kept = recallDecisions(browserMemory, key);
  if (steps !== null && JSON.stringify(steps.present) === JSON.stringify(kept)) keepHistory(file, steps);
};

/** Opens a piece that was open before, with what can be undone. @param bar index of the bar to show; null for the one that was looked at last */
const takeUp = (file: ScoreFile, key: string, bar: number | null, open: ScoreOpener['open']): void => {
  openAt(file, bar ?? recallPlace(windowMemory, key));
  takeUpSteps(file, key);
  open(file);
};

/**
 * The address and the title of the window follow the open piece, which the browser keeps: reloading stays in it, at
 * the bar that is looked at and with what can be undone, Back leads to the one before or to the first view, and Forward to
 * the piece again (see `place-history.ts` for the places in it).
 *
 * @returns goes on with a piece that is kept
 */
export const usePieceAddress = ({ stage, open, close }: ScoreOpener): ((file: ScoreFile) => void) => {
  const opened = openedIn(stage);
  const key = opened === null ? null : keyOfFile(opened.file);
  // The bytes of an open file: what the address asks for is not opened again.
  const openKey = useRef<string | null>(null);
  openKey.current = key;
  /** The piece of the address as it stands. */
  const addressed = useRef<ScoreFile | null>(null);
  useEffect(() => {
    document.title = opened === null ? STRINGS.title : STRINGS.windowTitle(opened.title || opened.file.name);
    leavePlace(addressed.current);
    if (opened === null || key === null) {
      addressed.current = null;
      return;
    }
    if (readAddress(location.hash).key !== key)
      history.pushState(null, '', writeAddress({ key, bar: viewOf(opened.file)?.bar ?? null }));
    addressed.current = opened.file;
    void keepPiece(opened.file, opened.title);
  }, [opened?.file]);
  useEffect(() => {
    const follow = async (): Promise<void> => {
      const { key: wanted, bar } = readAddress(location.hash);
      if (wanted === (openKey.current ?? '')) return;
      const piece = wanted === '' ? null : await recallPiece(wanted);
      if (piece !== null) takeUp(piece.file, wanted, bar, open);
      else if (openKey.current !== null) close();
    };
    void follow();
    const listen = (): void => void follow();
    const leave = (): void => leavePlace(addressed.current);
    addEventListener('popstate', listen);
    addEventListener('pagehide', leave);
    return () => {
      removeEventListener('popstate', listen);
      removeEventListener('pagehide', leave);
    };
  }, []);
  return (file) => takeUp(file, keyOfFile(file), null, open);
};
