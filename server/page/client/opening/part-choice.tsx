import { useEffect, useRef } from 'preact/hooks';
import type { PartSummary } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';

const words = STRINGS.parts;

/** Lets the user say which part is the harp; its heading takes the focus. */
export const PartChoice = ({
  parts,
  silentHarp,
  onChoose,
}: {
  readonly parts: readonly PartSummary[];
  readonly silentHarp: string | null;
  readonly onChoose: (id: string) => void;
}) => {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => title.current?.focus(), []);
  return (
    <section class="parts">
      <h2 ref={title} tabIndex={-1}>
        {words.heading}
      </h2>
      <p>{silentHarp === null ? words.intro : words.silentHarp(silentHarp)}</p>
      <ul>
        {parts.map(({ id, name, staves, notes }) => (
          <li key={id}>
            <button type="button" onClick={() => onChoose(id)}>
              {words.option(name || words.unnamed, staves, notes)}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
};
