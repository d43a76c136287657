import {
  childrenNamed,
  descendantsNamed,
  listParts,
  readMusicFont,
  type Score,
  type Span,
  wordsOf,
  type XmlElement,
} from '../../../engine/index.ts';

/** Words that are nothing but accidentals, and the bar (index) they stand in. */
export interface AccidentalWords {
  readonly span: Span;
  readonly bar: number;
}

/** Unicode's accidentals, and SMuFL's (U+E260 to U+E264). */
const ACCIDENTALS = /^[\s♭♮♯\u{1D12A}\u{1D12B}\u{E260}-\u{E264}]+$/u;
const ORNAMENTS = ['trill-mark', 'turn', 'inverted-turn', 'mordent', 'inverted-mordent', 'trill'] as const;

/**
 * Accidentals that a file sets as words: they stand at a moment and belong to no note, so that whoever reads the page would
 * have to guess which note is meant. In a bar with an ornament they are the ornament's.
 */
export const accidentalWords = (score: Score): readonly AccidentalWords[] =>
  barsOf(score).flatMap(({ bar, content, directions }) =>
    descendantsNamed(content, ...ORNAMENTS).length > 0
      ? []
      : directions
          .filter((direction) => ACCIDENTALS.test(wordsIn(direction, score.source.text)))
          .map(({ span }) => ({ span, bar })),
  );

interface BarWithDirections {
  readonly bar: number;
  readonly content: XmlElement;
  readonly directions: readonly XmlElement[];
}

const barsOf = ({ bars, harp, source }: Score): readonly BarWithDirections[] => {
  if (source.format === 'mei') {
    const measures = new Map(descendantsNamed(source.root, 'measure').map((each) => [each.span.start, each]));
    return bars.flatMap(({ index, span }) => {
      const content = measures.get(span.start);
      if (content === undefined) return [];
      const own = childrenNamed(content, 'dir').filter(({ attributes }) =>
        harp.meiStaves.includes(attributes.staff ?? ''),
      );
      return [{ bar: index, content, directions: own }];
    });
  }
  return listParts(source.root, source.format)
    .filter(({ id }) => harp.partIds.includes(id))
    .flatMap((part) => part.bars)
    .map(({ index, content }) => ({ bar: index, content, directions: childrenNamed(content, 'direction') }));
};

/** The words of a direction that holds nothing else; empty where it does. */
const wordsIn = (direction: XmlElement, text: string): string => {
  if (direction.name === 'dir') return readMusicFont(wordsOf(direction, text), fontOf(direction));
  const shown = childrenNamed(direction, 'direction-type').flatMap(({ children }) => children);
  return shown.every(({ name }) => name === 'words')
    ? shown.map((words) => readMusicFont(words.text, words.attributes['font-family'] ?? '')).join('')
    : '';
};

const fontOf = (direction: XmlElement): string =>
  descendantsNamed(direction, 'rend').find(({ attributes }) => attributes.fontfam !== undefined)?.attributes
    .fontfam ?? '';
