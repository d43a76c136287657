import { VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import type { SourceText } from '../../engine/score/model/source.ts';
import { parseXml } from '../../engine/xml/parse-xml.ts';
import { descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';

/** What Verovio says of a note: bar index, quarter notes from the bar's start, and MIDI key (null where not asked). */
export interface OracleNote {
  readonly bar: number;
  readonly onset: number;
  readonly midi: number | null;
}

/** One score as Verovio understands it. */
export interface OracleReading {
  /** By note id; for MusicXML notes without an id `n` and the offset, as our reader names them. */
  readonly notes: ReadonlyMap<string, OracleNote>;
  readonly bars: number;
  /** Verovio's conversion of the score. */
  readonly mei: string;
}

export interface Oracle {
  /** @returns null where Verovio cannot load the score */
  readonly read: (source: SourceText) => Promise<OracleReading | null>;
}

/** For MEI the played pitch has to be asked for note by note, in time that grows with the score. */
const ASKED_PITCHES = 600;

const OPTIONS = { breaks: 'none', header: 'none', footer: 'none', expandNever: true, xmlIdChecksum: true };

/** Starts Verovio; a score that brings it down is answered with null, and a fresh instance reads the next. */
export const startOracle = async (): Promise<Oracle> => {
  let toolkit = new VerovioToolkit(await createVerovioModule());
  return {
    read: async (source) => {
      try {
        return load(toolkit, source);
      } catch (thrown) {
        // A crash of the module is a WebAssembly exception, which is no Error, or a RuntimeError.
        if (thrown instanceof Error && thrown.name !== 'RuntimeError') throw thrown;
        toolkit = new VerovioToolkit(await createVerovioModule());
        return null;
      }
    },
  };
};

const load = (toolkit: VerovioToolkit, source: SourceText): OracleReading | null => {
  const isMei = source.format === 'mei';
  toolkit.resetOptions();
  toolkit.setOptions({ ...OPTIONS, inputFrom: isMei ? 'mei' : 'xml' });
  if (!toolkit.loadData(isMei ? source.text : withNoteIds(source))) return null;
  const mei = toolkit.getMEI({ removeIds: false });
  if (isMei) toolkit.renderToMIDI();
  return readToolkit(toolkit, mei, isMei);
};

const readToolkit = (toolkit: VerovioToolkit, mei: string, isMei: boolean): OracleReading => {
  const root = parseXml(mei);
  if (!root.ok) throw new Error(`Verovio wrote MEI that is not well-formed: ${JSON.stringify(root.problem)}`);
  const notes = new Map<string, OracleNote>();
  const starts = new Map<string, number>();
  const onsets = new Map<string, number>();
  for (const event of toolkit.renderToTimemap({ includeMeasures: true })) {
    if (event.measureOn !== undefined) starts.set(event.measureOn, event.qstamp);
    for (const id of event.on ?? []) onsets.set(id, event.qstamp);
  }
  // Movements that are not laid out and incipits in the head have measures that the timemap does not list.
  const measures = descendantsNamed(root.value, 'measure').filter((each) => starts.has(idOf(each)));
  const stride = Math.ceil(onsets.size / ASKED_PITCHES);
  let asked = 0;
  for (const [bar, measure] of measures.entries()) {
    for (const note of descendantsNamed(measure, 'note')) {
      const onset = onsets.get(idOf(note));
      if (onset === undefined) continue;
      asked += 1;
      const played =
        isMei && asked % stride === 0 ? toolkit.getMIDIValuesForElement(idOf(note)).pitch : undefined;
      const midi = isMei ? (played ?? null) : midiOfElement(note);
      notes.set(idOf(note), { bar, onset: onset - starts.get(idOf(measure))!, midi });
    }
  }
  return { notes, bars: measures.length, mei };
};

const idOf = (element: XmlElement): string => element.attributes['xml:id'] ?? '';

const CHROMA: Readonly<Record<string, number>> = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };
const ALTER: Readonly<Record<string, number>> = {
  n: 0,
  s: 1,
  f: -1,
  ss: 2,
  x: 2,
  ff: -2,
  ts: 3,
  tf: -3,
  nf: -1,
  ns: 1,
};

/** MIDI key of a note of Verovio's conversion, which writes the performed octave and accidental on each note. */
const midiOfElement = (note: XmlElement): number | null => {
  const of = (name: string): string | undefined =>
    note.attributes[name] ??
    descendantsNamed(note, 'accid').find((each) => each.attributes[name] !== undefined)?.attributes[name];
  const chroma = CHROMA[note.attributes.pname ?? ''];
  const octave = Number(of('oct.ges') ?? of('oct'));
  const alter = ALTER[of('accid.ges') ?? of('accid') ?? 'n'];
  return chroma === undefined || alter === undefined ? null : 12 * (octave + 1) + chroma + alter;
};

/**
 * MusicXML in which every note has an id, so that notes can be told apart in the conversion. `multiple-rest` is taken
 * out: Verovio loses the bars under it.
 */
export const withNoteIds = ({ text, root }: SourceText): string => {
  const edits: { at: number; remove: number; insert: string }[] = [];
  for (const note of descendantsNamed(root, 'note')) {
    if (note.attributes.id !== undefined) continue;
    edits.push({ at: note.span.start + '<note'.length, remove: 0, insert: ` id="n${note.span.start}"` });
  }
  for (const rest of descendantsNamed(root, 'multiple-rest')) {
    edits.push({ at: rest.span.start, remove: rest.span.end - rest.span.start, insert: '' });
  }
  const pieces: string[] = [];
  let place = 0;
  for (const edit of edits.sort((a, b) => a.at - b.at)) {
    pieces.push(text.slice(place, edit.at), edit.insert);
    place = edit.at + edit.remove;
  }
  return pieces.join('') + text.slice(place);
};
