import { beatAt, descendantsNamed, type Rational, type Score, toNumber } from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import type { MarkingPlace } from '../../markings/markings.ts';
import { escapeForEncoding, insertBefore, isSelfClosing, prefixOf, withPrefix } from './insertion.ts';
import { findDirectionPlaces } from './musicxml-places.ts';

/** What a notice is in either format, beside its place. */
export interface NoticeXml {
  readonly mei: { readonly name: string; readonly attributes: string; readonly content: string };
  /** What stands in its direction types, and the sound that changes there; null for none. */
  readonly musicXml: { readonly types: readonly string[]; readonly sound: string | null };
}

/** When something is to be told; before a grace note, and by which staff of the harp and on which side of it, where it is not over the first. */
export interface NoticePlace {
  readonly at: Rational;
  readonly bar: number;
  readonly graceNote?: string | null;
  /** From 1. */
  readonly staff?: number;
  readonly place?: 'above' | 'below';
}

type Placed<Notice> = MarkingPlace & { readonly notice: Notice };

/**
 * Insertions that write what is to be told of the player's decisions, strings and feet, by a staff.
 *
 * A measure of MEI that is empty has no room: nothing is played there either, and the plan goes by the decision all the
 * same.
 *
 * @param kind of which the ids are made
 */
export const noticeEdits = <Notice extends NoticePlace>(
  score: Score,
  kind: string,
  notices: readonly Notice[],
  write: (notice: Notice) => NoticeXml,
  idOf: (markingId: string) => string,
): Edit[] => {
  const placed = notices.map(
    (notice, i): Placed<Notice> => ({
      at: notice.at,
      bar: notice.bar,
      beat: beatAt(score.bars[notice.bar]!, notice.at),
      graceNote: notice.graceNote ?? null,
      id: idOf(`${kind}-${i + 1}`),
      notice,
    }),
  );
  return score.source.format === 'mei' ? meiEdits(score, placed, write) : musicXmlEdits(score, placed, write);
};

const musicXmlEdits = <Notice extends NoticePlace>(
  score: Score,
  placed: readonly Placed<Notice>[],
  write: (notice: Notice) => NoticeXml,
): Edit[] => {
  const { text, root, encoding } = score.source;
  const places = findDirectionPlaces(score, placed);
  const prefix = prefixOf(text, root);
  return placed.map((each) => {
    const { before, offset, staff } = places.get(each)!;
    const { types, sound } = write(each.notice).musicXml;
    const xml = [
      `<direction placement="${each.notice.place ?? 'above'}" id="${each.id}">`,
      ...types.map((type) => `<direction-type>${type}</direction-type>`),
      offset === 0 ? '' : `<offset${sound === null ? '' : ' sound="yes"'}>${offset}</offset>`,
      staff === null ? '' : `<staff>${each.notice.staff ?? 1}</staff>`,
      `${sound ?? ''}</direction>`,
    ].join('');
    return insertBefore(text, before, escapeForEncoding(encoding, withPrefix(prefix, xml)));
  });
};

const meiEdits = <Notice extends NoticePlace>(
  score: Score,
  placed: readonly Placed<Notice>[],
  write: (notice: Notice) => NoticeXml,
): Edit[] => {
  const { text, root, encoding } = score.source;
  const measures = new Map(descendantsNamed(root, 'measure').map((each) => [each.span.start, each]));
  return placed.flatMap(({ bar, beat, id, notice }) => {
    const measure = measures.get(score.bars[bar]!.span.start)!;
    if (isSelfClosing(text, measure)) return [];
    const { attributes, content, ...element } = write(notice).mei;
    const name = `${prefixOf(text, measure)}${element.name}`;
    const tstamp = Math.round(toNumber(beat) * 1e6) / 1e6;
    const place = `xml:id="${id}" staff="${score.harp.meiStaves[(notice.staff ?? 1) - 1]}" place="${notice.place ?? 'above'}" tstamp="${tstamp}"`;
    const xml = `<${name} ${place}${attributes}>${content}</${name}>`;
    return [insertBefore(text, measure.inner.end, escapeForEncoding(encoding, xml))];
  });
};
