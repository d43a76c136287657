import { useEffect, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { askForKeysBy } from './service-key.ts';

const words = STRINGS.key;

/** Asks for the key of a service that wants one; not seen before it does. */
export const KeyDialog = () => {
  const dialog = useRef<HTMLDialogElement>(null);
  const answer = useRef<(key: string | null) => void>(() => {});
  const [wrong, setWrong] = useState(false);
  useEffect(
    () =>
      askForKeysBy((wasWrong) => {
        setWrong(wasWrong);
        dialog.current!.showModal();
        return new Promise((resolve) => {
          answer.current = resolve;
        });
      }),
    [],
  );
  const send = (event: SubmitEvent): void => {
    event.preventDefault();
    const field = (event.currentTarget as HTMLFormElement).elements.namedItem('key') as HTMLInputElement;
    answer.current(field.value.trim());
    field.value = '';
    dialog.current!.close();
  };
  return (
    <dialog ref={dialog} aria-labelledby="key-heading" onClose={() => answer.current(null)}>
      <form onSubmit={send}>
        <h2 id="key-heading">{words.heading}</h2>
        <p>{wrong ? words.wrong : words.why}</p>
        <label>
          <span>{words.label}</span>
          <input type="password" name="key" required autocomplete="current-password" />
        </label>
        <div class="row">
          <button type="submit">{words.send}</button>
          <button type="button" onClick={() => dialog.current!.close()}>
            {words.without}
          </button>
        </div>
      </form>
    </dialog>
  );
};
