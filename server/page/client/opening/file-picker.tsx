import { useRef } from 'preact/hooks';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';

export interface FilePickerProps {
  /** A score is open already: less is said. */
  readonly opened: boolean;
  readonly onFile: (file: File) => void;
  readonly onDemo: (demo: 'pedals' | 'levers') => void;
}

export const FilePicker = ({ opened, onFile, onDemo }: FilePickerProps) => {
  const input = useRef<HTMLInputElement>(null);
  const { open } = STRINGS;
  const take = (): void => {
    const file = input.current?.files?.[0];
    if (file !== undefined) onFile(file);
    // The same file may be chosen again, once fixed.
    if (input.current !== null) input.current.value = '';
  };
  return (
    <div class="picker">
      {!opened && <p>{open.intro}</p>}
      <input
        ref={input}
        type="file"
        accept=".musicxml,.xml,.mxl,.mei,.abc"
        hidden
        onChange={take}
        aria-label={open.choose}
      />
      <button type="button" class={opened ? '' : 'main'} onClick={() => input.current?.click()}>
        {opened ? open.another : open.choose}
      </button>
      {!opened && (
        <>
          <button type="button" onClick={() => onDemo('pedals')}>
            {open.demo}
          </button>{' '}
          <button type="button" onClick={() => onDemo('levers')}>
            {LEVER_STRINGS.demo}
          </button>
        </>
      )}
      {!opened && <p class="aside">{open.drop}</p>}
    </div>
  );
};
