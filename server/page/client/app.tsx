import { useEffect, useState } from 'preact/hooks';
import { STRINGS } from '../strings.ts';
import type { ScoreFile } from './annotate-request.ts';
import { FilePicker } from './file-picker.tsx';
import { type ScoreOpener, type ScoreStage, useScoreOpener } from './opened-score.ts';
import { PartChoice } from './part-choice.tsx';
import { Workspace } from './workspace.tsx';

const readFile = async (file: File, { open, refuse }: ScoreOpener): Promise<void> => {
  try {
    open({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()), part: null });
  } catch {
    refuse(file.name, STRINGS.refused.unreadable);
  }
};

const readDemo = async ({ open, refuse }: ScoreOpener): Promise<void> => {
  const name = STRINGS.open.demoTitle;
  try {
    const response = await fetch('demo.musicxml');
    if (!response.ok) throw new Error(`status ${response.status}`);
    open({ name, bytes: new Uint8Array(await response.arrayBuffer()), part: null });
  } catch {
    refuse(name, STRINGS.refused.unreadable);
  }
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

const Start = ({ stage, open }: { readonly stage: ScoreStage; readonly open: (file: ScoreFile) => void }) => (
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
      <PartChoice parts={stage.parts} onChoose={(part) => open({ ...stage.file, part })} />
    )}
  </>
);

export const App = () => {
  const opener = useScoreOpener();
  const { stage, open } = opener;
  const choose = (file: File): void => void readFile(file, opener);
  const dropping = useDrop(choose);
  const picker = (opened: boolean) => (
    <FilePicker opened={opened} onFile={choose} onDemo={() => void readDemo(opener)} />
  );
  if (stage.kind === 'open') {
    // A new score begins anew: nothing that was looked at in the one before is kept.
    return (
      <Workspace
        key={stage.file}
        file={stage.file}
        part={stage.part}
        picker={picker(true)}
        dropping={dropping}
      />
    );
  }
  return (
    <main class={dropping ? 'start dropping' : 'start'}>
      <h1>{STRINGS.title}</h1>
      <p class="subtitle">{STRINGS.subtitle}</p>
      {picker(false)}
      <Start stage={stage} open={open} />
    </main>
  );
};
