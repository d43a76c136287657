import {
  type Bar,
  beatAt,
  type Landmark,
  type Score,
  toNumber,
  type XmlElement,
} from '../../engine/index.ts';
import { type Edit, escapeText, insertAt } from '../edit.ts';
import type { LayoutMei } from '../layout/layout-mei.ts';

/**
 * Tempo and rehearsal marks that stand in other parts of a full score, shown above the harp: its own part, which alone
 * is laid out, often lacks them. A mark whose words the bar already shows is not doubled.
 */
export const sharedMarkEdits = (score: Score, mei: LayoutMei): Edit[] => {
  const done = new Set<string>();
  return score.landmarks.flatMap((landmark) => {
    const bar = score.bars[landmark.bar]!;
    const measure = mei.measureOf(bar);
    const key = `${landmark.bar} ${plain(landmark.text)}`;
    if (measure === undefined || plain(landmark.text) === '' || done.has(key)) return [];
    done.add(key);
    if (isShown(measure, landmark, mei)) return [];
    return [insertAt(measure.inner.end, markElement(landmark, bar, mei.staves[0]!))];
  });
};

/** Letters and digits alone: brackets and notes that survive of a metronome mark say nothing. */
const plain = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');

const TEXT_EVENTS = new Set(['tempo', 'reh', 'dir']);

const isShown = (measure: XmlElement, { text, kind }: Landmark, mei: LayoutMei): boolean =>
  measure.children
    .filter((event) => !mei.isDropped(event))
    .filter(({ name }) => (kind === 'rehearsal' ? name === 'reh' : TEXT_EVENTS.has(name)))
    .some(({ inner }) => {
      const shown = plain(mei.text.slice(inner.start, inner.end).replace(/<[^>]*>/g, ''));
      return shown.includes(plain(text)) || (shown !== '' && plain(text).includes(shown));
    });

const markElement = ({ kind, text, at }: Landmark, bar: Bar, staff: string): string => {
  const tstamp = toNumber(beatAt(bar, at));
  const words = escapeText(text);
  return kind === 'rehearsal'
    ? `<reh staff="${staff}" tstamp="${tstamp}" place="above"><rend rend="box" fontweight="bold">${words}</rend></reh>`
    : `<tempo staff="${staff}" tstamp="${tstamp}" place="above">${words}</tempo>`;
};
