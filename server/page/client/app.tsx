import type { ComponentChildren, ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { type HarpName, PEDAL_CATALOGUE, type TuneSummary } from '../../../engine/index.ts';
import { LEVER_STRINGS } from '../strings/lever-strings.ts';
import { STRINGS } from '../strings/strings.ts';
import type { BookStepsProps } from './book/book-steps.tsx';
import type { BookViewProps } from './book/book-view.tsx';
import { useSignOfUse } from './controls/sign-of-use.ts';
import type { LeverWorkspaceProps } from './levers/lever-workspace.tsx';
import { FilePicker } from './opening/file-picker.tsx';
import { useFollowedFile } from './opening/followed-file.ts';
import { FollowedLine, FollowedNewsProvider, FollowedTold } from './opening/followed-line.tsx';
import { HarpChoice } from './opening/harp-choice.tsx';
import { InstrumentChoice } from './opening/instrument-choice.tsx';
import { MovementChoice } from './opening/movement-choice.tsx';
import { useKeptOffline } from './opening/offline.ts';
import { type ScoreOpener, type ScoreStage, useScoreOpener } from './opening/opened-score.ts';
import { PartChoice } from './opening/part-choice.tsx';
import { usePieceAddress } from './opening/piece-address.ts';
import { RecentList } from './opening/recent-list.tsx';
import { useViewFocus } from './opening/view-focus.ts';
import type { WorkspaceProps } from './pedal-workspace.tsx';
import type { ReadPart } from './planner/planned-part.ts';
import type { ScoreFile } from './service/annotate-request.ts';
import { KeyDialog } from './service/key-dialog.tsx';
import { SettingSection } from './settings/setting-section.tsx';

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
        <img src="before.svg" width="134" height="44" alt={beforePicture} />
      </figure>
      <figure>
        <figcaption>{after}</figcaption>
        <img src="after.svg" width="134" height="44" alt={afterPicture} />
      </figure>
    </div>
  );
};

const loadWorkspaces = async (): Promise<Workspaces> => {
  const [pedals, levers, view, steps] = await Promise.all([
    import('./pedal-workspace.tsx'),
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

interface Workspaces {
  readonly Workspace: ComponentType<WorkspaceProps>;
  readonly LeverWorkspace: ComponentType<LeverWorkspaceProps>;
  readonly BookView: ComponentType<BookViewProps>;
  readonly BookSteps: ComponentType<BookStepsProps>;
}

/** Where nothing is open the pedals stand at naturals, and the feet rest as plans have it. */
const WITHOUT_SCORE = { setting: { D: 0, C: 0, B: 0, E: 0, F: 0, G: 0, A: 0 }, bar: null } as const;
const FOOT_REST_SECONDS = PEDAL_CATALOGUE.footRestSeconds.default;

/** What else can be opened beside an open piece, and for which harp. */
const OpenedPicker = ({
  file,
  opened: { part, harp, tunes },
  BookSteps,
  onOpen,
  children,
}: {
  readonly file: ScoreFile;
  readonly opened: {
    readonly part: ReadPart;
    readonly harp: HarpName;
    readonly tunes: readonly TuneSummary[];
  };
  readonly BookSteps: Workspaces['BookSteps'];
  /** The field that was used is named. */
  readonly onOpen: (name: string, file: ScoreFile) => void;
  readonly children: ComponentChildren;
}) => (
  <>
    <MovementChoice
      movements={part.movements}
      chosen={file.movement}
      onChoose={(movement) => onOpen('movement', ofMovement(file, movement))}
    />
    <HarpChoice part={part} onChoose={(id) => onOpen('part', { ...file, part: id })} />
    <InstrumentChoice harp={harp} onChoose={(instrument) => onOpen('instrument', { ...file, instrument })} />
    {children}
    <BookSteps file={file} tunes={tunes} onOpen={onOpen} />
  </>
);

/** The view of an open piece, for its harp. */
const OpenPiece = ({
  stage,
  planning,
  workspaces,
  picker,
  dropping,
  onOpen,
}: {
  readonly stage: Extract<ScoreStage, { readonly kind: 'open' | 'open-levers' }>;
  readonly planning: ScoreOpener['planning'];
  readonly workspaces: Workspaces;
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
  readonly onOpen: (name: string, file: ScoreFile) => void;
}) => {
  const { Workspace, LeverWorkspace, BookSteps } = workspaces;
  const { file } = stage;
  const whole = <OpenedPicker {...{ file, BookSteps, onOpen }} opened={stage.opened} children={picker} />;
  const shared = { file, planning, dropping, picker: whole };
  // A new score begins anew: nothing that was looked at in the one before is kept.
  return stage.kind === 'open' ? (
    <Workspace key={file} {...shared} opened={stage.opened} />
  ) : (
    <LeverWorkspace key={file} {...shared} opened={stage.opened} />
  );
};

/** What is seen while no piece is open. */
const FirstView = ({
  stage,
  open,
  goOn,
  BookView,
  picker,
  dropping,
  isKept,
}: {
  readonly stage: ScoreStage;
  readonly open: (file: ScoreFile) => void;
  /** Opens a piece that the browser kept where it was left. */
  readonly goOn: (file: ScoreFile) => void;
  readonly BookView: Workspaces['BookView'] | null;
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
  /** Whether the browser has the page's files. */
  readonly isKept: boolean;
}) => (
  <main class={`start${stage.kind === 'tunes' ? ' wide' : ''}${dropping ? ' dropping' : ''}`}>
    <h1 tabIndex={-1}>{STRINGS.title}</h1>
    <p class="subtitle">{STRINGS.subtitle}</p>
    {picker}
    <FollowedLine />
    <Start stage={stage} open={open} BookView={BookView} />
    {(stage.kind === 'none' || stage.kind === 'refused') && <RecentList onOpen={goOn} />}
    {stage.kind === 'none' && <FirstPicture />}
    {stage.kind === 'none' && <SettingSection standing={WITHOUT_SCORE} footRestSeconds={FOOT_REST_SECONDS} />}
    {isKept && <p class="aside">{STRINGS.open.keptOffline}</p>}
  </main>
);

const Stages = () => {
  const opener = useScoreOpener();
  const { stage, open, planning } = opener;
  const workspaces = useWorkspaces(stage.kind !== 'none');
  const isKept = useKeptOffline(workspaces !== null);
  const goOn = usePieceAddress(opener);
  const news = useFollowedFile(opener);
  const choose = (file: File): void => void readFile(file, opener);
  const dropping = useDrop(choose);
  const keepFocusOn = useViewFocus(stage, workspaces !== null);
  const reopen = (name: string, file: ScoreFile): void => {
    keepFocusOn(name);
    open(file);
  };
  const isOpen = (stage.kind === 'open' || stage.kind === 'open-levers') && workspaces !== null;
  const picker = (
    <FilePicker opened={isOpen} onFile={choose} onDemo={(demo) => void readDemo(demo, opener)} />
  );
  return (
    <FollowedNewsProvider value={news}>
      {isOpen ? (
        <OpenPiece {...{ stage, planning, workspaces, picker, dropping }} onOpen={reopen} />
      ) : (
        <FirstView
          {...{ stage, open, goOn, picker, dropping, isKept }}
          BookView={workspaces?.BookView ?? null}
        />
      )}
      {news !== null && <FollowedTold news={news} />}
    </FollowedNewsProvider>
  );
};

export const App = () => (
  <>
    <Stages />
    <KeyDialog />
  </>
);
