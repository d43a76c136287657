import {
  childrenNamed,
  childText,
  descendantsNamed,
  firstChild,
  type Span,
  type XmlElement,
} from '../../xml/tree.ts';
import { numberBars } from '../bars/bar-numbers.ts';
import type { PartCandidate } from '../harp-choice.ts';
import type { ScoreFormat } from '../model/source.ts';
import { wordsIn } from './directions/directions.ts';

/** A bar as the file counts it. */
export interface Measure {
  /** The printed number, or one that is counted. */
  readonly number: string;
  /** The `id` that the file gives the bar; empty if none. */
  readonly id: string;
  readonly span: Span;
}

/** The music of one part in one bar. */
export interface PartBar {
  /** Counted from 0 from the start of the score. */
  readonly index: number;
  readonly number: string;
  readonly content: XmlElement;
}

/** A part of a MusicXML score, as its part list has it. */
export interface Part {
  readonly id: string;
  /** In a score sorted by bar, those of all parts together. */
  readonly measures: readonly Measure[];
  /** In order; a score sorted by bar may leave some out. */
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
    const elements = childrenNamed(part, 'measure');
    const measures = listMeasures(elements);
    const bars = elements.map((content, index) => ({ index, number: measures[index]!.number, content }));
    parts.set(id, { id, measures, bars });
  }
  return [...parts.values()];
};

const partsOfTimewise = (root: XmlElement): readonly Part[] => {
  const elements = childrenNamed(root, 'measure');
  const measures = listMeasures(elements);
  const parts = new Map<string, PartBar[]>();
  for (const [index, element] of elements.entries()) {
    for (const content of childrenNamed(element, 'part')) {
      const id = content.attributes.id ?? '';
      const bars = parts.get(id) ?? [];
      parts.set(id, bars);
      if (bars.at(-1)?.index !== index) bars.push({ index, number: measures[index]!.number, content });
    }
  }
  return [...parts].map(([id, bars]) => ({ id, measures, bars }));
};

/** What the file prints goes before its own number; an implicit bar takes none (MusicXML 4.0, `measure`). */
const listMeasures = (elements: readonly XmlElement[]): readonly Measure[] => {
  const numbers = numberBars(
    elements.map(({ attributes: { number = '', text, implicit } }) => ({
      name: text || number,
      uncounted: implicit === 'yes',
    })),
  );
  return elements.map(({ attributes: { id = '' }, span }, bar) => ({ number: numbers[bar]!, id, span }));
};

/** What tells the harp from other parts: the names of the part list, and the staves and notes that each part has. */
export const listCandidates = (root: XmlElement, parts: readonly Part[]): readonly PartCandidate[] => {
  const partList = firstChild(root, 'part-list');
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
  const contents = (part?.bars ?? []).map((bar) => bar.content);
  return {
    id,
    name: (entry === null ? undefined : childText(entry, 'part-name')) ?? '',
    abbreviation: (entry === null ? undefined : childText(entry, 'part-abbreviation')) ?? '',
    staves: contents.reduce((most, content) => Math.max(most, stavesIn(content)), 1),
    notes: contents.reduce((sum, content) => sum + notesIn(content), 0),
    sounds: instruments.flatMap((instrument) => childText(instrument, 'instrument-sound') ?? []),
    midiProgram: programs.find((program) => program === 47) ?? programs.find(Number.isInteger) ?? null,
    words: () =>
      contents.flatMap((content) => childrenNamed(content, 'direction').map(wordsIn)).filter(Boolean),
    hasDiagram: () =>
      contents.some((content) =>
        childrenNamed(content, 'direction').some((each) => descendantsNamed(each, 'harp-pedals').length > 0),
      ),
  };
};

const stavesIn = (content: XmlElement): number =>
  childrenNamed(content, 'attributes').reduce((most, attributes) => {
    const staves = Number(childText(attributes, 'staves') ?? 1);
    return Number.isInteger(staves) ? Math.max(most, staves) : most;
  }, 1);

const notesIn = (content: XmlElement): number =>
  content.children.reduce(
    (sum, each) => sum + (each.name === 'note' && firstChild(each, 'pitch') !== undefined ? 1 : 0),
    0,
  );
