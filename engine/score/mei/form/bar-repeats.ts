import type { BarRepeat, Jump } from '../../model/bar.ts';
import type { BarDraft, Control } from '../draft.ts';
import type { MarkTimes } from '../marks/mark-times.ts';
import { wordsOf } from '../text.ts';

/** A repeated passage is played twice unless endings say otherwise (common practice, no source). */
const TWICE = 2;

const STARTS: ReadonlySet<string> = new Set(['rptstart', 'rptboth']);
const ENDS: ReadonlySet<string> = new Set(['rptend', 'rptboth']);
const SEGNOS: ReadonlySet<string> = new Set(['segno', 'dblsegno']);

/**
 * The repeat signs and jumps of each bar, from bar lines (`left`, `right`) and `repeatMark`.
 *
 * A sign at a bar's right may be meant for the next bar's start, and one at its left for the end of the bar before:
 * MEI lets both measures name the line between them.
 */
export const readRepeats = (
  bars: readonly BarDraft[],
  controls: readonly Control[],
  times: MarkTimes,
  source: string,
): readonly BarRepeat[] => {
  const side = (index: number, name: 'left' | 'right'): string =>
    bars[index]?.element.attributes[name]?.trim() ?? '';
  const jumps = readJumps(controls, times, source);
  return bars.map(({ endings }, index) => {
    const ends = ENDS.has(side(index, 'right')) || ENDS.has(side(index + 1, 'left'));
    const segno = SEGNOS.has(side(index, 'left')) || SEGNOS.has(side(index - 1, 'right'));
    return {
      start: STARTS.has(side(index, 'left')) || STARTS.has(side(index - 1, 'right')),
      endTimes: ends ? TWICE : 0,
      endings,
      jumps: [...(segno ? [{ kind: 'segno', label: '' } as const] : []), ...(jumps.get(index) ?? [])],
    };
  });
};

const readJumps = (
  controls: readonly Control[],
  times: MarkTimes,
  source: string,
): ReadonlyMap<number, readonly Jump[]> => {
  const jumps = new Map<number, readonly Jump[]>();
  for (const control of controls) {
    if (control.element.name !== 'repeatMark') continue;
    const bar = times.startOf(control)?.bar ?? control.bar;
    const before = jumps.get(bar) ?? [];
    const jump = jumpOf(control.element.attributes.func?.trim(), wordsOf(control.element, source));
    if (jump !== null && !before.some((each) => each.kind === jump.kind)) jumps.set(bar, [...before, jump]);
  }
  return jumps;
};

/** `func` says what the mark does (MEI 5.1, att.repeatMark.log); only its words tell “to coda” from the coda itself. */
const jumpOf = (func: string | undefined, words: string): Jump | null => {
  switch (func) {
    case 'segno':
      return { kind: 'segno', label: '' };
    case 'coda':
      return { kind: /\b(to|al|alla|zur|vers)\b/i.test(words) ? 'to-coda' : 'coda', label: '' };
    case 'daCapo':
      return { kind: 'da-capo' };
    case 'dalSegno':
      return { kind: 'dal-segno', label: '' };
    case 'fine':
      return { kind: 'fine' };
    default:
      return null;
  }
};
