import type { TuneSummary } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import { ChoiceList } from './choice-list.tsx';

const words = STRINGS.tunes;

/** Lets the user choose one tune of a tune book. */
export const TuneChoice = ({
  tunes,
  onChoose,
}: {
  readonly tunes: readonly TuneSummary[];
  readonly onChoose: (number: string) => void;
}) => (
  <ChoiceList
    heading={words.heading}
    intro={words.intro(tunes.length)}
    choices={tunes.map(({ number, title }) => ({ key: number, label: words.option(number, title) }))}
    onChoose={onChoose}
  />
);
