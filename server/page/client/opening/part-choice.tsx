import { useEffect, useRef } from 'preact/hooks';
import type { PartSummary } from '../../../../engine/problem.ts';
import { STRINGS } from '../../strings.ts';

/** Lets the user say which part is the harp. */
export const PartChoice = ({
  parts,
  silentHarp,
  onChoose,
}: {
  readonly parts: readonly PartSummary[];
  readonly silentHarp: string | null;
  readonly onChoose: (id: string) => void;
}) => {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <section class="parts">
      <h2 ref={heading} tabIndex={-1}>
        {STRINGS.parts.heading}
      </h2>
      <p>{silentHarp === null ? STRINGS.parts.intro : STRINGS.parts.silentHarp(silentHarp)}</p>
      <ul>
        {parts.map(({ id, name, staves, notes }) => (
          <li key={id}>
            <button type="button" onClick={() => onChoose(id)}>
              {STRINGS.parts.option(name || STRINGS.parts.unnamed, staves, notes)}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
};
