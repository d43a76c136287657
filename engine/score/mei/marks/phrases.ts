import { add, compare, type Rational } from '../../../music/rational.ts';
import type { PhraseMark } from '../../model.ts';
import type { NoteDraft } from '../draft.ts';
import type { MarkContext } from './marks.ts';

/** Elements that end a phrase at a note. */
const STOPS: ReadonlyMap<string, PhraseMark['kind']> = new Map([
  ['fermata', 'fermata'],
  ['breath', 'breath'],
  ['caesura', 'caesura'],
]);

/** Slurs and phrase lines, and the signs that stop the music at a note; what has no notes of the harp is passed over. */
export const findPhrases = ({ controls, times }: MarkContext): readonly PhraseMark[] =>
  controls
    .flatMap((control): PhraseMark[] => {
      const { name } = control.element;
      const kind = name === 'slur' || name === 'phrase' ? 'slur' : STOPS.get(name);
      const start = kind === undefined ? null : times.startOf(control);
      const [first, ...others] = start === null ? [] : times.notesAt(control, start);
      if (kind === undefined || start === null || first === undefined) return [];
      const stop = { kind, start: first.onset };
      if (kind !== 'slur') return [{ ...stop, last: first.onset, end: lastEnd([first, ...others]) }];
      const end = times.endOf(control, start);
      const [last, ...beside] = end === null ? [] : times.notesAt(control, end);
      if (last === undefined) return [];
      return [{ ...stop, last: last.onset, end: lastEnd([last, ...beside]) }];
    })
    .sort((a, b) => compare(a.start, b.start));

const lastEnd = (notes: readonly NoteDraft[]): Rational =>
  notes
    .map(({ onset, duration }) => add(onset, duration))
    .reduce((latest, end) => (compare(end, latest) > 0 ? end : latest));
