import { useEffect, useRef } from 'preact/hooks';
import type { TuneSummary } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';

/** Lets the user choose one tune of a tune book. */
export const TuneChoice = ({
  tunes,
  onChoose,
}: {
  readonly tunes: readonly TuneSummary[];
  readonly onChoose: (number: string) => void;
}) => {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <section class="parts">
      <h2 ref={heading} tabIndex={-1}>
        {STRINGS.tunes.heading}
      </h2>
      <p>{STRINGS.tunes.intro(tunes.length)}</p>
      <ul>
        {tunes.map(({ number, title }) => (
          <li key={number}>
            <button type="button" onClick={() => onChoose(number)}>
              {STRINGS.tunes.option(number, title)}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
};
