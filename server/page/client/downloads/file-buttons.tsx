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

/** What is told of a file that is being made, or was. */
interface Told {
  readonly what: string;
  readonly sentence: string;
  /** Gives it up; null once it has ended. */
  readonly stop: (() => void) | null;
}

const isRunning = ({ stop }: Told): boolean => stop !== null;

/** Makes files; what becomes of each is told until another is begun after its end. */
const useMaking = () => {
  const [told, setTold] = useState<readonly Told[]>([]);
  const run = async ({ what, save }: TakenFile): Promise<void> => {
    const own = new AbortController();
    const tell = (...now: readonly Told[]): void =>
      setTold((before) => before.flatMap((each) => (each.what === what ? now : [each])));
    const end = (sentence: string): void => tell({ what, sentence, stop: null });
    setTold((before) => [
      ...before.filter(isRunning),
      { what, sentence: words.preparing(what), stop: () => own.abort() },
    ]);
    try {
      const wrong = await save(own.signal);
      end(wrong === null ? words.done(what) : words.failed(what, wrong));
    } catch (error) {
      if (own.signal.aborted) return end(words.stopped(what));
      tell();
      throw error;
    }
  };
  return { told, run };
};

/** How it goes with each file, a line each, and what gives it up. */
const TellMaking = ({ told }: { readonly told: readonly Told[] }) => (
  // What has changed is announced, and not all lines again.
  <div role="status" aria-atomic={false}>
    {told.map(({ what, sentence, stop }) => (
      <div key={what} class="making">
        <p>{sentence}</p>
        {stop !== null && (
          <>
            <progress aria-label={sentence} />
            <button type="button" aria-label={words.stop(what)} onClick={stop}>
              {STRINGS.compare.stop}
            </button>
          </>
        )}
      </div>
    ))}
  </div>
);

/** A button for each file, which waits while its file is being made, and how it goes with those. */
export const SaveButtons = ({ files, children }: SaveButtonsProps) => {
  const { told, run } = useMaking();
  const isMaking = ({ what }: TakenFile): boolean =>
    told.some((each) => each.what === what && isRunning(each));
  return (
    <>
      <div class="buttons">
        {files.map((file) => (
          <button
            key={file.what}
            type="button"
            disabled={!file.ready}
            aria-disabled={isMaking(file)}
            onClick={() => {
              if (!isMaking(file)) void run(file);
            }}
          >
            {file.what}
          </button>
        ))}
        {children}
      </div>
      <TellMaking told={told} />
    </>
  );
};
