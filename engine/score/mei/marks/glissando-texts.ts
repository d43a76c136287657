import { compare } from '../../../music/rational.ts';
import type { GlissandoText } from '../../words/glissandi-in-words.ts';
import { readGlissandoWords } from '../../words/glissando-words.ts';
import type { Control } from '../draft.ts';
import { wordsOf } from '../text.ts';
import type { MarkTimes } from './mark-times.ts';
import { isHarps } from './markings.ts';

/** Elements whose words may ask for a glissando. */
const WORDS: ReadonlySet<string> = new Set(['dir', 'stageDir']);

/**
 * Words at the harp's staves that ask for a glissando, in order of time.
 *
 * @param alone whether the harp is the whole score, so that words without a staff are the harp's
 */
export const readGlissandoTexts = (
  controls: readonly Control[],
  times: MarkTimes,
  meiStaves: readonly string[],
  alone: boolean,
  source: string,
): readonly GlissandoText[] =>
  controls
    .flatMap((control): GlissandoText[] => {
      if (!WORDS.has(control.element.name)) return [];
      const text = wordsOf(control.element, source);
      const words = readGlissandoWords(text);
      const start = words === null ? null : times.startOf(control);
      if (words === null || start === null || !isHarps(control, start, times, alone)) return [];
      const staff = 1 + Math.max(0, meiStaves.indexOf(times.stavesOf(control, start)[0] ?? ''));
      return [{ at: start.onset, bar: start.bar, staff, text, words }];
    })
    .sort((a, b) => compare(a.at, b.at));
