import { useEffect, useRef, useState } from 'preact/hooks';
import type { Decisions, HarpName } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { fingerprintOf } from '../memory/fingerprint.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { fileIn, type ScoreOpener } from './opened-score.ts';

/** What is to be told of a file that the command follows. */
export interface FollowedNews {
  /** When the save that is shown was there; null before the first. */
  readonly savedAt: Date | null;
  /** What it changed in the plan; null where there was none before. */
  readonly changes: readonly string[] | null;
  /** What is wrong with the file, or with hearing of it; null for nothing. */
  readonly trouble: string | null;
}

/** What the service tells of the file with a save. */
interface SavedFacts {
  readonly id: string;
  readonly fileName: string;
  readonly part?: string;
  readonly tune?: string;
  readonly movement?: string;
  readonly instrument?: HarpName;
  readonly decided?: Decisions;
}

interface Save extends SavedFacts {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly at: Date;
}

/** What the address says is followed: who knows the token may read the file. Null where nothing is. */
const tokenInAddress = (): string | null => new URLSearchParams(location.search).get('follow');

interface Heard {
  readonly onSave: (save: Save) => void;
  readonly onTrouble: (sentence: string | null) => void;
}

/** Listens for saves; a lost connection is made again by the browser. @returns ends it */
const listenForSaves = (token: string, { onSave, onTrouble }: Heard): (() => void) => {
  const path = `followed/${token}`;
  const source = new EventSource(`${path}/saves`);
  let asked = 0;
  const fetchSave = async (facts: SavedFacts): Promise<void> => {
    asked += 1;
    const mine = asked;
    const at = new Date();
    try {
      const answer = await fetch(`${path}/file`);
      if (!answer.ok) throw new Error(`status ${answer.status}`);
      const bytes = new Uint8Array(await answer.arrayBuffer());
      if (mine === asked) onSave({ ...facts, bytes, at });
    } catch {
      if (mine === asked) onTrouble(STRINGS.followed.silent);
    }
  };
  source.addEventListener('saved', ({ data }) => void fetchSave(JSON.parse(data) as SavedFacts));
  source.addEventListener('gone', ({ data }) => {
    asked += 1;
    onTrouble(STRINGS.followed.gone((JSON.parse(data) as { sentence: string }).sentence));
  });
  source.addEventListener('end', () => {
    source.close();
    onTrouble(STRINGS.followed.ended);
  });
  source.addEventListener('error', () =>
    onTrouble(source.readyState === EventSource.CLOSED ? STRINGS.followed.ended : STRINGS.followed.silent),
  );
  return () => source.close();
};

/** The save as the file that is open: what the user chose of it stays; at first it is as the command says. */
const fileOf = ({ bytes, fileName, id, at: _, ...chosen }: Save, before: ScoreFile | null): ScoreFile =>
  before === null
    ? { ...chosen, part: chosen.part ?? null, name: fileName, bytes, followed: id }
    : { ...before, name: fileName, bytes };

/**
 * Shows each save of the file that the address says is followed. While another piece is looked at it waits.
 *
 * @returns null where the address says of none
 */
export const useFollowedFile = ({ stage, open, renew }: ScoreOpener): FollowedNews | null => {
  const [token] = useState(tokenInAddress);
  const [save, setSave] = useState<Save | null>(null);
  const [news, setNews] = useState<FollowedNews>({ savedAt: null, changes: null, trouble: null });
  const tried = useRef<Save | null>(null);
  const onTrouble = (trouble: string | null): void => setNews((before) => ({ ...before, trouble }));
  useEffect(
    () => (token === null ? undefined : listenForSaves(token, { onSave: setSave, onTrouble })),
    [token],
  );
  useEffect(() => {
    if (save === null || save === tried.current || stage.kind === 'working') return;
    const shown = fileIn(stage);
    const isElsewhere = shown === null ? tried.current !== null : shown.followed !== save.id;
    if (isElsewhere) return;
    tried.current = save;
    const file = fileOf(save, shown);
    const tellShown = (changes: FollowedNews['changes']): void =>
      setNews({ savedAt: save.at, changes, trouble: null });
    if (shown === null || (stage.kind !== 'open' && stage.kind !== 'open-levers')) {
      open(file);
      tellShown(null);
    } else if (fingerprintOf(shown.bytes) === fingerprintOf(save.bytes)) onTrouble(null);
    else {
      renew(shown, file, (told) => {
        if (told.kind === 'renewed') tellShown(told.changes);
        else onTrouble(STRINGS.followed.unusable(told.sentence));
      });
    }
  }, [save, stage]);
  return token === null ? null : news;
};
