import { useEffect, useRef } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { keyOfFile } from '../memory/kept-decisions.ts';
import { keepPiece, recallPiece } from '../memory/recent-pieces.ts';
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

/**
 * The address and the title of the window follow the open piece, which the browser keeps: reloading stays in it, Back
 * leads to the one before or to the first view, and what is kept can be gone on with.
 */
export const usePieceAddress = ({ stage, open, close }: ScoreOpener): void => {
  const opened = openedIn(stage);
  const key = opened === null ? null : keyOfFile(opened.file);
  // The bytes of an open file: what the address asks for is not opened again.
  const openKey = useRef<string | null>(null);
  openKey.current = key;
  useEffect(() => {
    document.title = opened === null ? STRINGS.title : STRINGS.windowTitle(opened.title || opened.file.name);
    if (opened === null || key === null) return;
    if (keyInAddress() !== key) history.pushState(null, '', `#${encodeURIComponent(key)}`);
    void keepPiece(opened.file, opened.title);
    void keepPageOffline();
  }, [opened?.file]);
  useEffect(() => {
    const follow = async (): Promise<void> => {
      const wanted = keyInAddress();
      if (wanted === (openKey.current ?? '')) return;
      const piece = wanted === '' ? null : await recallPiece(wanted);
      if (piece !== null) open(piece.file);
      else if (openKey.current !== null) close();
    };
    void follow();
    const listen = (): void => void follow();
    addEventListener('popstate', listen);
    return () => removeEventListener('popstate', listen);
  }, []);
};
