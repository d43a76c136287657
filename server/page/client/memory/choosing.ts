import { useEffect, useState } from 'preact/hooks';
import type { HarpKind } from '../../../../engine/index.ts';
import type { Choices } from '../options/choices.ts';
import type { ScoreView } from '../score/score-view.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { browserMemory } from './browser-memory.ts';
import { keyOfFile } from './kept-decisions.ts';
import { openingChoices } from './opening-choices.ts';
import { rememberChoices } from './remembered-choices.ts';

/** The tuning of a set holds where the tune is opened from the set, and not where it is opened alone. */
const lasting = (choices: Choices, { tuning: ofSet }: ScoreFile): Choices => {
  const { tuning, ...others } = choices;
  return tuning === undefined || tuning === ofSet ? others : choices;
};

/** What is chosen of an open part, remembered over visits. */
export const useChoices = (harp: HarpKind, file: ScoreFile, view: ScoreView) => {
  const [choices, setChoices] = useState<Choices>(() => view.choices[harp] ?? openingChoices(harp, file));
  view.choices[harp] = choices;
  useEffect(() => rememberChoices(browserMemory, harp, keyOfFile(file), lasting(choices, file)), [choices]);
  return [choices, setChoices] as const;
};
