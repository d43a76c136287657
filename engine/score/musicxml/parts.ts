import { child, childrenNamed, childText, type Span, type XmlElement } from '../../xml/tree.ts';
import type { PartCandidate } from '../harp-choice.ts';
import type { ScoreFormat } from '../model.ts';

/** One bar of one part. `content` holds the music; it is null where a part lacks this bar. */
export interface PartBar {
  /** The printed number; empty where none is printed. */
  readonly number: string;
  /** The `id` that the file gives the bar; empty if none. */
  readonly id: string;
  readonly content: XmlElement | null;
  readonly span: Span;
}

export interface Part {
  readonly id: string;
  readonly bars: readonly PartBar[];
}

/** The parts that hold music, in score order, whether the file is sorted by part or by bar. */
export const listParts = (root: XmlElement, format: ScoreFormat): readonly Part[] =>
  format === 'musicxml-timewise' ? partsOfTimewise(root) : partsOfPartwise(root);

const partsOfPartwise = (root: XmlElement): readonly Part[] => {
  const parts = new Map<string, Part>();
  for (const part of childrenNamed(root, 'part')) {
    const id = part.attributes.id ?? '';
    if (parts.has(id)) continue;
    const bars = childrenNamed(part, 'measure').map((measure) => barOf(measure, measure));
    parts.set(id, { id, bars });
  }
  return [...parts.values()];
};

const partsOfTimewise = (root: XmlElement): readonly Part[] => {
  const measures = childrenNamed(root, 'measure');
  const parts = new Map<string, PartBar[]>();
  for (const [index, measure] of measures.entries()) {
    for (const content of childrenNamed(measure, 'part')) {
      const id = content.attributes.id ?? '';
      const bars = parts.get(id) ?? measures.map((each) => barOf(each, null));
      parts.set(id, bars);
      if (bars[index]!.content === null) bars[index] = barOf(measure, content);
    }
  }
  return [...parts].map(([id, bars]) => ({ id, bars }));
};

/** A bar that is counted but not numbered has a made-up number such as `X1`. */
const barOf = (measure: XmlElement, content: XmlElement | null): PartBar => {
  const { number = '', text, implicit, id = '' } = measure.attributes;
  const isPrinted = implicit !== 'yes' || /^\d/u.test(number);
  return { number: text ?? (isPrinted ? number : ''), id, content, span: (content ?? measure).span };
};

/** What tells the harp from other parts: the names of the part list, and the staves and notes that each part has. */
export const listCandidates = (root: XmlElement, parts: readonly Part[]): readonly PartCandidate[] => {
  const partList = child(root, 'part-list');
  const entries = partList === undefined ? [] : childrenNamed(partList, 'score-part');
  const byId = new Map(parts.map((part) => [part.id, part]));
  const listed = new Set<string>();
  const candidates: PartCandidate[] = [];
  for (const entry of entries) {
    const id = entry.attributes.id ?? '';
    if (listed.has(id)) continue;
    listed.add(id);
    candidates.push(candidateOf(id, entry, byId.get(id)));
  }
  for (const part of parts) if (!listed.has(part.id)) candidates.push(candidateOf(part.id, null, part));
  return candidates;
};

const candidateOf = (id: string, entry: XmlElement | null, part: Part | undefined): PartCandidate => {
  const instruments = entry === null ? [] : childrenNamed(entry, 'score-instrument');
  const programs = (entry === null ? [] : childrenNamed(entry, 'midi-instrument')).map((midi) =>
    Number(childText(midi, 'midi-program')),
  );
  const contents = (part?.bars ?? []).flatMap((bar) => (bar.content === null ? [] : [bar.content]));
  return {
    id,
    name: (entry === null ? undefined : childText(entry, 'part-name')) ?? '',
    abbreviation: (entry === null ? undefined : childText(entry, 'part-abbreviation')) ?? '',
    staves: contents.reduce((most, content) => Math.max(most, stavesIn(content)), 1),
    notes: contents.reduce((sum, content) => sum + notesIn(content), 0),
    sounds: instruments.flatMap((instrument) => childText(instrument, 'instrument-sound') ?? []),
    midiProgram: programs.find((program) => program === 47) ?? programs.find(Number.isInteger) ?? null,
  };
};

const stavesIn = (content: XmlElement): number =>
  childrenNamed(content, 'attributes').reduce((most, attributes) => {
    const staves = Number(childText(attributes, 'staves') ?? 1);
    return Number.isInteger(staves) ? Math.max(most, staves) : most;
  }, 1);

const notesIn = (content: XmlElement): number =>
  childrenNamed(content, 'note').filter((note) => child(note, 'pitch') !== undefined).length;
