import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';

const words = STRINGS.take;

/** A file that can be taken away. */
export interface TakenFile {
  readonly what: string;
  readonly ready: boolean;
  /**
   * @param signal gives it up
   * @returns what went wrong, as a sentence; null where nothing did
   */
  readonly save: (signal: AbortSignal) => Promise<string | null>;
}

interface SaveButtonsProps {
  readonly files: readonly TakenFile[];
  /** Further buttons. */
  readonly children?: ComponentChildren;
}

/** Files to take away, under a heading, and below them those that something is to be chosen for. */
export const FileButtons = ({
  below,
  ...buttons
}: SaveButtonsProps & { readonly below: ComponentChildren }) => (
  <section class="take">
    <h2>{words.heading}</h2>
    <SaveButtons {...buttons} />
    {below}
  </section>
);

/** Makes files; what becomes of them is told, and those that are being made can be given up. */
const useMaking = () => {
  const [told, setTold] = useState('');
  const [making, setMaking] = useState<readonly AbortController[]>([]);
  const run = async ({ what, save }: TakenFile): Promise<void> => {
    const own = new AbortController();
    setMaking((now) => [...now, own]);
    setTold(words.preparing(what));
    try {
      const wrong = await save(own.signal);
      setTold(wrong === null ? words.done(what) : words.failed(what, wrong));
    } catch (error) {
      if (!own.signal.aborted) throw error;
      setTold(words.stopped(what));
    } finally {
      setMaking((now) => now.filter((each) => each !== own));
    }
  };
  return { told, isMaking: making.length > 0, run, stop: () => making.forEach((each) => void each.abort()) };
};

/** A button for each file, and how it goes with those that are being made. */
export const SaveButtons = ({ files, children }: SaveButtonsProps) => {
  const { told, isMaking, run, stop } = useMaking();
  return (
    <>
      <div class="buttons">
        {files.map((file) => (
          <button key={file.what} type="button" disabled={!file.ready} onClick={() => void run(file)}>
            {file.what}
          </button>
        ))}
        {children}
      </div>
      <p role="status">{told}</p>
      {isMaking && (
        <>
          <progress aria-label={told} />{' '}
          <button type="button" onClick={stop}>
            {STRINGS.compare.stop}
          </button>
        </>
      )}
    </>
  );
};
