import type { TuneBar } from '../tune.ts';
import { element, textElement } from '../write-xml.ts';

const STYLES: Readonly<Record<TuneBar['right'], string | null>> = {
  single: null,
  double: 'light-light',
  end: 'light-heavy',
  repeat: 'light-heavy',
  dotted: 'dotted',
  invisible: 'none',
};

/** The numbers of an ending one by one: `1-3` is `1,2,3`. */
const listNumbers = (numbers: string): string => {
  const listed = numbers.split(',').flatMap((each) => {
    const [from = 1, to = from] = each
      .split('-')
      .map((text) => Number.parseInt(text.replace(/\D/gu, ''), 10));
    if (!(from > 0 && to >= from)) return [];
    return Array.from({ length: Math.min(to - from + 1, 99) }, (_, index) => from + index);
  });
  return listed.length === 0 ? '1' : listed.join(',');
};

const writeEnding = ({ ending }: TuneBar, type: 'start' | 'stop'): string =>
  ending === null ? '' : element('ending', { number: listNumbers(ending.numbers), type });

const writeBarLine = (location: 'left' | 'right', content: readonly string[]): string =>
  content.join('') === '' ? '' : element('barline', { location }, content);

/** The signs at both ends of a bar. */
export const writeBarLines = (bar: TuneBar): { readonly left: string; readonly right: string } => ({
  left: writeBarLine('left', [
    bar.startsRepeat ? textElement('bar-style', 'heavy-light') : '',
    bar.ending?.starts === true ? writeEnding(bar, 'start') : '',
    bar.startsRepeat ? '<repeat direction="forward"/>' : '',
  ]),
  right: writeBarLine('right', [
    textElement('bar-style', STYLES[bar.right] ?? ''),
    bar.ending?.ends === true ? writeEnding(bar, 'stop') : '',
    bar.right === 'repeat' ? '<repeat direction="backward"/>' : '',
  ]),
});
