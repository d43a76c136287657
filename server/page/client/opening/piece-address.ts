import { useEffect, useRef } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { windowMemory } from '../memory/browser-memory.ts';
import { keyOfFile } from '../memory/kept-decisions.ts';
import { keepPlace, recallPlace } from '../memory/kept-place.ts';
import { keepPiece, recallPiece } from '../memory/recent-pieces.ts';
import { openAt, viewOf } from '../score/score-view.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { keepPageOffline } from './offline.ts';
import type { ScoreOpener, ScoreStage } from './opened-score.ts';

const keyInAddress = (): string => decodeURIComponent(location.hash.slice(1));

/** The piece that is open, or the tune book. */
const openedIn = (stage: ScoreStage): { readonly file: ScoreFile; readonly title: string } | null => {
  if (stage.kind === 'tunes') return { file: stage.file, title: '' };
  return stage.kind === 'open' || stage.kind === 'open-levers'
    ? { file: stage.file, title: stage.opened.part.titles.title }
    : null;
};

const leavePlace = (file: ScoreFile | null): void => {
  const bar = file === null ? null : (viewOf(file)?.bar ?? null);
  if (file !== null && bar !== null) keepPlace(windowMemory, keyOfFile(file), bar);
};

/**
 * The address and the title of the window follow the open piece, which the browser keeps: reloading stays in it, at
 * the bar that is looked at, Back leads to the one before or to the first view, and what is kept can be gone on with.
 */
export const usePieceAddress = ({ stage, open, close }: ScoreOpener): void => {
  const opened = openedIn(stage);
  const key = opened === null ? null : keyOfFile(opened.file);
  // The bytes of an open file: what the address asks for is not opened again.
  const openKey = useRef<string | null>(null);
  openKey.current = key;
  /** The piece of the address as it stands. */
  const addressed = useRef<ScoreFile | null>(null);
  useEffect(() => {
    document.title = opened === null ? STRINGS.title : STRINGS.windowTitle(opened.title || opened.file.name);
    if (opened === null || key === null) {
      addressed.current = null;
      return;
    }
    leavePlace(addressed.current);
    if (keyInAddress() !== key) history.pushState(null, '', `#${encodeURIComponent(key)}`);
    addressed.current = opened.file;
    void keepPiece(opened.file, opened.title);
    void keepPageOffline();
  }, [opened?.file]);
  useEffect(() => {
    const follow = async (): Promise<void> => {
      const wanted = keyInAddress();
      if (wanted === (openKey.current ?? '')) return;
      const piece = wanted === '' ? null : await recallPiece(wanted);
      if (piece !== null) {
        openAt(piece.file, recallPlace(windowMemory, wanted));
        open(piece.file);
      } else if (openKey.current !== null) close();
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
};
