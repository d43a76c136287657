import {
  beatAt,
  descendantsNamed,
  type Score,
  type TempoNotice,
  tempoFigure,
  toNumber,
} from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import type { MarkingPlace } from '../../markings/markings.ts';
import { escapeForEncoding, insertBefore, isSelfClosing, prefixOf, withPrefix } from './insertion.ts';
import { findDirectionPlaces } from './musicxml-places.ts';

/**
 * Insertions that write what is to be told of passages that the user slowed, over the upper staff: the tempo where it
 * begins to hold, as words and a metronome mark, and the score's own where it holds again.
 *
 * A measure of MEI that is empty has no room: nothing is played there either, and the plan goes by the tempo all the same.
 */
export const tempoNoticeEdits = (score: Score, idOf: (markingId: string) => string): Edit[] => {
  const notices = score.slowed.map((notice, i) => ({
    ...notice,
    id: `tempo-${i + 1}`,
    beat: beatAt(score.bars[notice.bar]!, notice.at),
    graceNote: null,
  }));
  return score.source.format === 'mei' ? meiEdits(score, notices, idOf) : musicXmlEdits(score, notices, idOf);
};

/** The note that MusicXML counts tempi of playback in. */
const QUARTER = { quarters: 1 };

type PlacedNotice = TempoNotice & MarkingPlace;

const musicXmlEdits = (
  score: Score,
  notices: readonly PlacedNotice[],
  idOf: (markingId: string) => string,
): Edit[] => {
  const { text, root, encoding } = score.source;
  const places = findDirectionPlaces(score, notices);
  const prefix = prefixOf(text, root);
  return notices.map((notice) => {
    const { before, offset, staff } = places.get(notice)!;
    const { unit, quartersPerMinute } = notice;
    const words = notice.words === '' ? [] : [`<words>${notice.words}</words>`];
    const beat = `<beat-unit>${unit.value}</beat-unit>${unit.dots === 1 ? '<beat-unit-dot/>' : ''}`;
    const metronome = `<metronome>${beat}<per-minute>${tempoFigure(quartersPerMinute, unit)}</per-minute></metronome>`;
    const xml = [
      `<direction placement="above" id="${idOf(notice.id)}">`,
      ...[...words, metronome].map((each) => `<direction-type>${each}</direction-type>`),
      offset === 0 ? '' : `<offset sound="yes">${offset}</offset>`,
      staff === null ? '' : '<staff>1</staff>',
      `<sound tempo="${tempoFigure(quartersPerMinute, QUARTER)}"/></direction>`,
    ].join('');
    return insertBefore(text, before, escapeForEncoding(encoding, withPrefix(prefix, xml)));
  });
};

const meiEdits = (
  score: Score,
  notices: readonly PlacedNotice[],
  idOf: (markingId: string) => string,
): Edit[] => {
  const { text, root, encoding } = score.source;
  const measures = new Map(descendantsNamed(root, 'measure').map((each) => [each.span.start, each]));
  return notices.flatMap((notice) => {
    const bar = score.bars[notice.bar]!;
    const measure = measures.get(bar.span.start)!;
    if (isSelfClosing(text, measure)) return [];
    const name = `${prefixOf(text, measure)}tempo`;
    const { unit } = notice;
    const figure = tempoFigure(notice.quartersPerMinute, unit);
    const words = notice.words === '' ? '' : `${notice.words} `;
    // MEI 5.1, att.mmTempo: a value by its part of a whole note, and its dots.
    const dots = unit.dots === 1 ? ' mm.dots="1"' : '';
    const value = Math.round(4 / (unit.quarters / (unit.dots === 1 ? 1.5 : 1)));
    const beat = Math.round(toNumber(notice.beat) * 1e6) / 1e6;
    const attributes = `xml:id="${idOf(notice.id)}" staff="${score.harp.meiStaves[0]}" place="above" tstamp="${beat}" mm="${figure}" mm.unit="${value}"${dots}`;
    const xml = `<${name} ${attributes}>${words}${unit.sign} = ${figure}</${name}>`;
    return [insertBefore(text, measure.inner.end, escapeForEncoding(encoding, xml))];
  });
};
