import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';

const words = STRINGS.take;

/** A file that can be taken away. */
export interface TakenFile {
  readonly what: string;
  readonly ready: boolean;
  /** @returns what went wrong, as a sentence; null where nothing did */
  readonly save: () => Promise<string | null>;
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

/** A button for each file; what becomes of them is told. */
export const SaveButtons = ({ files, children }: SaveButtonsProps) => {
  const [told, setTold] = useState('');
  const run = async ({ what, save }: TakenFile): Promise<void> => {
    setTold(words.preparing(what));
    const wrong = await save();
    setTold(wrong === null ? words.done(what) : words.failed(what, wrong));
  };
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
    </>
  );
};
