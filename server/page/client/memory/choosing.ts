import { useEffect, useState } from 'preact/hooks';
import type { HarpKind } from '../../../../engine/index.ts';
import type { Choices } from '../options/choices.ts';
import type { ScoreView } from '../score/score-view.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { browserMemory } from './browser-memory.ts';
import { keyOfFile } from './kept-decisions.ts';
import { openingChoices } from './opening-choices.ts';
import { rememberChoices } from './remembered-choices.ts';

/** What is chosen of an open part, remembered over visits. */
export const useChoices = (harp: HarpKind, file: ScoreFile, view: ScoreView) => {
  const [choices, setChoices] = useState<Choices>(() => view.choices[harp] ?? openingChoices(harp, file));
  view.choices[harp] = choices;
  useEffect(() => rememberChoices(browserMemory, harp, keyOfFile(file), choices), [choices]);
  return [choices, setChoices] as const;
};
