import type { ComponentType } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { type HarpName, PEDAL_CATALOGUE, type TuneSummary } from '../../../engine/index.ts';
import { LEVER_STRINGS } from '../strings/lever-strings.ts';
import { STRINGS } from '../strings/strings.ts';
import type { BookStepsProps } from './book/book-steps.tsx';
import type { BookViewProps } from './book/book-view.tsx';
import { useSignOfUse } from './controls/sign-of-use.ts';
import type { LeverWorkspaceProps } from './levers/lever-workspace.tsx';
import { FilePicker } from './opening/file-picker.tsx';
import { HarpChoice } from './opening/harp-choice.tsx';
import { InstrumentChoice } from './opening/instrument-choice.tsx';
import { MovementChoice } from './opening/movement-choice.tsx';
import { type ScoreOpener, type ScoreStage, useScoreOpener } from './opening/opened-score.ts';
import { PartChoice } from './opening/part-choice.tsx';
import { usePieceAddress } from './opening/piece-address.ts';
import { RecentList } from './opening/recent-list.tsx';
import type { ReadPart } from './planner/planned-part.ts';
import type { ScoreFile } from './service/annotate-request.ts';
import { KeyDialog } from './service/key-dialog.tsx';
import { SettingSection } from './settings/setting-section.tsx';
import type { WorkspaceProps } from './workspace.tsx';

const readFile = async (file: File, { open, refuse }: ScoreOpener): Promise<void> => {
  try {
    open({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()), part: null });
  } catch {
    refuse(file.name, STRINGS.refused.unreadable);
  }
};

const DEMOS = {
  pedals: { name: STRINGS.open.demoTitle, path: 'demo.musicxml' },
  levers: { name: LEVER_STRINGS.demoTitle, path: 'demo-levers.musicxml' },
};

const readDemo = async (demo: keyof typeof DEMOS, { open, refuse }: ScoreOpener): Promise<void> => {
  const { name, path } = DEMOS[demo];
  try {
    const response = await fetch(path);
    if (!response.ok) throw new Error(`status ${response.status}`);
    open({ name, bytes: new Uint8Array(await response.arrayBuffer()), part: null });
  } catch {
    refuse(name, STRINGS.refused.demoMissing);
  }
};

/** The same file, read in another movement. */
const ofMovement = (file: ScoreFile, movement: string | undefined): ScoreFile => {
  const { movement: _, ...whole } = file;
  return movement === undefined ? whole : { ...whole, movement };
};

/** A file may be dropped anywhere on the page. */
const useDrop = (onFile: (file: File) => void): boolean => {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const hover = (event: DragEvent): void => {
      if (!event.dataTransfer?.types.includes('Files')) return;
      event.preventDefault();
      setOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      event.preventDefault();
      setOver(false);
      const file = event.dataTransfer?.files[0];
      if (file !== undefined) onFile(file);
    };
    addEventListener('dragover', hover);
    addEventListener('dragleave', leave);
    addEventListener('drop', drop);
    return () => {
      removeEventListener('dragover', hover);
      removeEventListener('dragleave', leave);
      removeEventListener('drop', drop);
    };
  });
  return over;
};

const progressOf = (stage: ScoreStage): string =>
  stage.kind === 'working' ? STRINGS.progress[stage.stage](stage.file.name) : '';

const Start = ({
  stage,
  open,
  BookView,
}: {
  readonly stage: ScoreStage;
  readonly open: (file: ScoreFile) => void;
  /** Null until it is loaded. */
  readonly BookView: Workspaces['BookView'] | null;
}) => (
  <>
    <p class="progress" role="status">
      {progressOf(stage)}
    </p>
    {stage.kind === 'refused' && (
      <section class="refused" role="alert">
        <h2>{STRINGS.refused.heading(stage.name)}</h2>
        <p>{stage.sentence}</p>
      </section>
    )}
    {stage.kind === 'parts' && (
      <PartChoice
        parts={stage.parts}
        silentHarp={stage.silentHarp}
        onChoose={(part) => open({ ...stage.file, part })}
      />
    )}
    {stage.kind === 'tunes' && BookView !== null && (
      <BookView key={stage.file} file={stage.file} tunes={stage.tunes} onOpen={open} />
    )}
  </>
);

/** What is done with a part, on three bars (made by the build, see `first-picture.mjs`). */
const FirstPicture = () => {
  const { before, after, beforePicture, afterPicture } = STRINGS.open;
  return (
    <div class="first-picture">
      <figure>
        <figcaption>{before}</figcaption>
        <img src="before.svg" width="122" height="38" alt={beforePicture} />
      </figure>
      <figure>
        <figcaption>{after}</figcaption>
        <img src="after.svg" width="122" height="38" alt={afterPicture} />
      </figure>
    </div>
  );
};

const loadWorkspaces = async (): Promise<Workspaces> => {
  const [pedals, levers, view, steps] = await Promise.all([
    import('./workspace.tsx'),
    import('./levers/lever-workspace.tsx'),
    import('./book/book-view.tsx'),
    import('./book/book-steps.tsx'),
  ]);
  return { ...pedals, ...levers, ...view, ...steps };
};

/** The views of an open score and of a tune book, loaded as soon as the user stirs: the first view needs none of them. */
const useWorkspaces = (isWanted: boolean): Workspaces | null => {
  const [loaded, setLoaded] = useState<Workspaces | null>(null);
  const [stirred, setStirred] = useState(false);
  useSignOfUse(() => setStirred(true));
  const isDue = stirred || isWanted;
  useEffect(() => {
    if (!isDue) return;
    void loadWorkspaces().then(setLoaded);
  }, [isDue]);
  return loaded;
};

/**
 * Another view takes the place of the one that had the focus: its heading gets it, so that a keyboard and a reader go on
 * from there; or the field of the header by which the view was chosen.
 *
 * @returns to be told the name of such a field when it is used
 */
const useViewFocus = (stage: ScoreStage, loaded: boolean): ((name: string) => void) => {
  const used = useRef<string | null>(null);
  const isSettled =
    stage.kind === 'parts' || stage.kind === 'refused' || (loaded && stage.kind.startsWith('open'));
  useEffect(() => {
    if (!isSettled) return;
    const name = used.current;
    const field = name === null ? null : document.querySelector<HTMLElement>(`header [name="${name}"]`);
    if (field !== null) used.current = null;
    if (document.activeElement !== document.body) return;
    (field ?? document.querySelector<HTMLElement>('h1'))?.focus({ preventScroll: true });
  }, [isSettled ? stage : null]);
  return (name) => {
    used.current = name;
  };
};

interface Workspaces {
  readonly Workspace: ComponentType<WorkspaceProps>;
  readonly LeverWorkspace: ComponentType<LeverWorkspaceProps>;
  readonly BookView: ComponentType<BookViewProps>;
  readonly BookSteps: ComponentType<BookStepsProps>;
}

/** Where nothing is open the pedals stand at naturals, and the feet rest as plans have it. */
const WITHOUT_SCORE = { setting: { D: 0, C: 0, B: 0, E: 0, F: 0, G: 0, A: 0 }, bar: null } as const;
const FOOT_REST_SECONDS = PEDAL_CATALOGUE.footRestSeconds.default;

const Stages = () => {
  const opener = useScoreOpener();
  const { stage, open } = opener;
  const workspaces = useWorkspaces(stage.kind !== 'none');
  usePieceAddress(opener);
  const choose = (file: File): void => void readFile(file, opener);
  const dropping = useDrop(choose);
  const keepFocusOn = useViewFocus(stage, workspaces !== null);
  const reopen = (name: string, file: ScoreFile): void => {
    keepFocusOn(name);
    open(file);
  };
  const picker = (opened: boolean) => (
    <FilePicker opened={opened} onFile={choose} onDemo={(demo) => void readDemo(demo, opener)} />
  );
  const openedPicker = (
    file: ScoreFile,
    { part, harp, tunes }: { part: ReadPart; harp: HarpName; tunes: readonly TuneSummary[] },
  ) => (
    <>
      {workspaces !== null && <workspaces.BookSteps file={file} tunes={tunes} onOpen={reopen} />}
      <MovementChoice
        movements={part.movements}
        onChoose={(movement) => reopen('movement', ofMovement(file, movement))}
      />
      <HarpChoice part={part} onChoose={(id) => reopen('part', { ...file, part: id })} />
      <InstrumentChoice
        harp={harp}
        onChoose={(instrument) => reopen('instrument', { ...file, instrument })}
      />
      {picker(true)}
    </>
  );
  if (stage.kind === 'open-levers' && workspaces !== null) {
    const { file, opened } = stage;
    const { LeverWorkspace } = workspaces;
    return (
      <LeverWorkspace
        key={file}
        file={file}
        opened={opened}
        picker={openedPicker(file, opened)}
        dropping={dropping}
      />
    );
  }
  if (stage.kind === 'open' && workspaces !== null) {
    const { Workspace } = workspaces;
    // A new score begins anew: nothing that was looked at in the one before is kept.
    return (
      <Workspace
        key={stage.file}
        file={stage.file}
        opened={stage.opened}
        replan={opener.replan}
        planOther={opener.planOther}
        picker={openedPicker(stage.file, stage.opened)}
        dropping={dropping}
      />
    );
  }
  return (
    <main class={`start${stage.kind === 'tunes' ? ' wide' : ''}${dropping ? ' dropping' : ''}`}>
      <h1 tabIndex={-1}>{STRINGS.title}</h1>
      <p class="subtitle">{STRINGS.subtitle}</p>
      {picker(false)}
      <Start stage={stage} open={open} BookView={workspaces?.BookView ?? null} />
      {(stage.kind === 'none' || stage.kind === 'refused') && <RecentList onOpen={open} />}
      {stage.kind === 'none' && <FirstPicture />}
      {stage.kind === 'none' && (
        <SettingSection standing={WITHOUT_SCORE} footRestSeconds={FOOT_REST_SECONDS} />
      )}
    </main>
  );
};

export const App = () => (
  <>
    <Stages />
    <KeyDialog />
  </>
);
