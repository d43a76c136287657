import { useState } from 'preact/hooks';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { addVariant, LONGEST_NAME, type Variant } from '../memory/kept-variants.ts';

const words = VARIANT_STRINGS;

/** Asks for a name. @param onKeep tells whether it could be kept */
const NameForm = ({ onKeep }: { readonly onKeep: (name: string) => boolean }) => {
  const [name, setName] = useState('');
  const wanted = name.trim();
  return (
    <form
      class="keep"
      onSubmit={(event) => {
        event.preventDefault();
        if (wanted !== '' && onKeep(wanted)) setName('');
      }}
    >
      <label>
        <span>{words.name}</span>
        <input
          name="variant"
          maxLength={LONGEST_NAME}
          value={name}
          onInput={({ currentTarget }) => setName(currentTarget.value)}
        />
      </label>
      <button type="submit" disabled={wanted === ''}>
        {words.keep}
      </button>
    </form>
  );
};

/** The variants of a piece: this plan is kept as one, or one is gone back to, which can be undone. */
export const KeptList = ({
  variants,
  actions,
  onKeep,
}: {
  readonly variants: readonly Variant[];
  readonly actions: DecisionActions;
  /** @returns whether they could be kept */
  readonly onKeep: (variants: readonly Variant[]) => boolean;
}) => {
  const [told, setTold] = useState('');
  const keep = (name: string): boolean => {
    const isKept = onKeep(addVariant(variants, { name, decisions: actions.decisions }));
    setTold(isKept ? words.kept(name) : words.notKept);
    return isKept;
  };
  const remove = (variant: Variant): void => {
    onKeep(variants.filter((each) => each !== variant));
    setTold(words.removed(variant.name));
  };
  return (
    <>
      <NameForm onKeep={keep} />
      <p role="status">{told}</p>
      {variants.length > 0 && <h3>{words.listed}</h3>}
      <ul class="variants">
        {variants.map((variant) => (
          <li key={variant.name}>
            <span>{variant.name}</span>
            <button
              type="button"
              class="small"
              aria-label={words.takeUpWhat(variant.name)}
              onClick={() => actions.change(words.takenUp(variant.name), variant.decisions)}
            >
              {words.takeUp}
            </button>
            <button
              type="button"
              class="small"
              aria-label={words.removeWhat(variant.name)}
              onClick={() => remove(variant)}
            >
              {words.remove}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
};
