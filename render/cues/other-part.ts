import {
  childrenNamed,
  descendantsNamed,
  listParts,
  type Note,
  readPart,
  type Score,
  wordsOf,
  type XmlElement,
} from '../../engine/index.ts';

/** A part beside the harp, read for what can be cued from it. */
export interface OtherPart {
  readonly id: string;
  readonly name: string;
  readonly score: Score;
  /** Its lines of notes: those of one voice on one staff. */
  readonly lines: readonly PartLine[];
  /** For each bar (by its index) what its signs say. */
  readonly signs: readonly BarOfSigns[];
}

export interface PartLine {
  readonly staff: number;
  readonly voice: string;
  /** In order of onset. */
  readonly notes: readonly Note[];
}

export interface BarOfSigns {
  /** How loud the part plays at the end of the bar, from 0 (ppp) to 7 (fff); null before the first sign. */
  readonly loudness: number | null;
  /** Words at the part's staves in this bar. */
  readonly words: readonly string[];
}

/** @returns null for a part that is the harp itself, or has no pitches */
export const readOtherPart = (score: Score, id: string): OtherPart | null => {
  if (score.harp.partIds.includes(id)) return null;
  const read = readPart(score, id);
  if (!read.ok || read.value.bars.length !== score.bars.length) return null;
  const part = read.value;
  return { id, name: part.harp.name, score: part, lines: linesOf(part), signs: followSigns(part) };
};

const linesOf = ({ notes }: Score): readonly PartLine[] => {
  const lines = new Map<string, { staff: number; voice: string; notes: Note[] }>();
  for (const note of notes) {
    if (note.role !== 'played') continue;
    const key = `${note.staff} ${note.voice}`;
    const line = lines.get(key) ?? { staff: note.staff, voice: note.voice, notes: [] };
    lines.set(key, line);
    line.notes.push(note);
  }
  return [...lines.values()];
};

/** What dynamics say; those that only stress a note say nothing of the passage. */
const LOUDNESS: readonly string[] = ['ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff'];

const followSigns = (part: Score): readonly BarOfSigns[] => {
  let loudness: number | null = null;
  return signsByBar(part).map(({ dynamics, words }) => {
    for (const sign of dynamics) {
      const level = LOUDNESS.indexOf(sign);
      if (level >= 0) loudness = level;
    }
    return { loudness, words };
  });
};

interface RawSigns {
  readonly dynamics: readonly string[];
  readonly words: readonly string[];
}

const signsByBar = (part: Score): readonly RawSigns[] =>
  part.source.format === 'mei' ? signsOfMei(part) : signsOfMusicXml(part);

const signsOfMusicXml = ({ source, harp, bars }: Score): readonly RawSigns[] => {
  const own = listParts(source.root, source.format).filter(({ id }) => harp.partIds.includes(id));
  const contents = new Map<number, XmlElement[]>();
  for (const { index, content } of own.flatMap((part) => part.bars))
    contents.set(index, [...(contents.get(index) ?? []), content]);
  return bars.map(({ index }) => {
    const directions = (contents.get(index) ?? []).flatMap((each) => childrenNamed(each, 'direction'));
    return {
      dynamics: directions.flatMap((each) =>
        descendantsNamed(each, 'dynamics').flatMap(({ children }) => children.map(({ name }) => name)),
      ),
      words: directions.flatMap((each) => descendantsNamed(each, 'words').map(({ text }) => text)),
    };
  });
};

const signsOfMei = ({ source, harp, bars }: Score): readonly RawSigns[] => {
  const measures = new Map(descendantsNamed(source.root, 'measure').map((each) => [each.span.start, each]));
  return bars.map(({ span }) => {
    const own = (measures.get(span.start)?.children ?? []).filter(({ attributes }) =>
      (attributes.staff ?? '').split(/\s+/).some((n) => harp.meiStaves.includes(n)),
    );
    const say = (name: string): string[] =>
      own.filter((each) => each.name === name).map((each) => wordsOf(each, source.text));
    return { dynamics: say('dynam'), words: say('dir') };
  });
};
