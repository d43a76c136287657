import { beatAt, descendantsNamed, type Score, toNumber } from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import { escapeForEncoding, insertBefore, isSelfClosing, prefixOf, withPrefix } from './insertion.ts';
import { findDirectionPlaces } from './musicxml-places.ts';

/** Insertions that write, over the upper staff, which notes a user has wait, where these are written. */
export const delayNoticeEdits = (score: Score, idOf: (markingId: string) => string): Edit[] => {
  const notices = score.delayed.map((notice, i) => ({
    ...notice,
    id: `delay-${i + 1}`,
    beat: beatAt(score.bars[notice.bar]!, notice.at),
    graceNote: null,
  }));
  const { text, root, encoding, format } = score.source;
  if (format === 'mei') {
    const measures = new Map(descendantsNamed(root, 'measure').map((each) => [each.span.start, each]));
    return notices.flatMap((notice) => {
      const measure = measures.get(score.bars[notice.bar]!.span.start)!;
      if (isSelfClosing(text, measure)) return [];
      const name = `${prefixOf(text, measure)}dir`;
      const beat = Math.round(toNumber(notice.beat) * 1e6) / 1e6;
      const attributes = `xml:id="${idOf(notice.id)}" staff="${score.harp.meiStaves[0]}" place="above" tstamp="${beat}"`;
      const xml = `<${name} ${attributes}>${notice.words}</${name}>`;
      return [insertBefore(text, measure.inner.end, escapeForEncoding(encoding, xml))];
    });
  }
  const places = findDirectionPlaces(score, notices);
  const prefix = prefixOf(text, root);
  return notices.map((notice) => {
    const { before, offset, staff } = places.get(notice)!;
    const xml = [
      `<direction placement="above" id="${idOf(notice.id)}">`,
      `<direction-type><words>${notice.words}</words></direction-type>`,
      offset === 0 ? '' : `<offset>${offset}</offset>`,
      staff === null ? '' : '<staff>1</staff>',
      '</direction>',
    ].join('');
    return insertBefore(text, before, escapeForEncoding(encoding, withPrefix(prefix, xml)));
  });
};
