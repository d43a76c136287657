import type { Pitch } from '../../../music/pitch.ts';
import type { NoteValue, Syllable, TuneEvent, TuneGrace, TunePitch } from '../tune.ts';
import { element, textElement } from '../write-xml.ts';
import type { SpansByEvent } from './numbered-spans.ts';
import { countDivisions } from './voices.ts';
import { type TupletEnds, writeNotations } from './write-notations.ts';

/** Where the notes that are written belong. */
export interface NotePlace {
  readonly voice: number;
  /** Number of the staff in its part; null where the part has one. */
  readonly staff: number | null;
  readonly divisions: number;
  readonly spans: SpansByEvent;
}

/** How an event hangs together with its neighbours. */
export interface NoteTies {
  readonly tuplet: TupletEnds;
  /** One for each beam from the first: `begin`, `continue`, `end` or a hook. */
  readonly beams: readonly string[];
  /** For each verse, whether a word goes on from the syllable before. */
  readonly inWord: readonly boolean[];
}

const TYPES: ReadonlyMap<number, string> = new Map([
  [0.5, 'breve'],
  [1, 'whole'],
  [2, 'half'],
  [4, 'quarter'],
  [8, 'eighth'],
  [16, '16th'],
  [32, '32nd'],
  [64, '64th'],
  [128, '128th'],
  [256, '256th'],
  [512, '512th'],
  [1024, '1024th'],
]);

const ACCIDENTALS: ReadonlyMap<number, string> = new Map([
  [-2, 'flat-flat'],
  [-1, 'flat'],
  [-0.5, 'quarter-flat'],
  [0, 'natural'],
  [0.5, 'quarter-sharp'],
  [1, 'sharp'],
  [2, 'double-sharp'],
]);

const writePitch = ({ letter, alter, octave }: Pitch): string =>
  element('pitch', {}, [
    textElement('step', letter),
    alter === 0 ? '' : textElement('alter', `${alter}`),
    textElement('octave', `${octave}`),
  ]);

export const writeType = ({ unit, dots }: NoteValue): string =>
  textElement('type', TYPES.get(unit) ?? '') + '<dot/>'.repeat(dots);

const writeAccidental = ({ pitch, accidental }: Pick<TunePitch, 'pitch' | 'accidental'>): string =>
  accidental ? textElement('accidental', ACCIDENTALS.get(pitch.alter) ?? '') : '';

const writeBeams = (beams: readonly string[]): readonly string[] =>
  beams.map((text, index) => textElement('beam', text, { number: index + 1 }));

const inStaff = ({ staff }: NotePlace): string => (staff === null ? '' : textElement('staff', `${staff}`));

const DIAMOND = '<notehead filled="no">diamond</notehead>';

const writeGrace = (grace: TuneGrace, beam: string | null, place: NotePlace): string =>
  element('note', {}, [
    element('grace', { slash: grace.slashed ? 'yes' : null }),
    writePitch(grace.pitch),
    textElement('voice', `${place.voice}`),
    writeType(grace.value),
    writeAccidental(grace),
    grace.diamond ? `<stem>none</stem>${DIAMOND}` : '',
    inStaff(place),
    ...writeBeams(beam === null ? [] : [beam]),
  ]);

const writeGraces = (graces: readonly TuneGrace[], place: NotePlace): readonly string[] =>
  graces.map((grace) => {
    const beamed = graces.filter(({ diamond, value }) => !diamond && value.unit >= 8);
    const index = beamed.indexOf(grace);
    const at = index === 0 ? 'begin' : index === beamed.length - 1 ? 'end' : 'continue';
    return writeGrace(grace, index < 0 || beamed.length < 2 ? null : at, place);
  });

const writeLyric = ({ text, goesOn }: Syllable, verse: number, inWord: boolean): string => {
  if (text === '') return '';
  const syllabic = goesOn === 'hyphen' ? (inWord ? 'middle' : 'begin') : inWord ? 'end' : 'single';
  return element('lyric', { number: verse + 1 }, [
    textElement('syllabic', syllabic),
    textElement('text', text),
    goesOn === 'line' ? '<extend/>' : '',
  ]);
};

/** A note, chord or rest with its grace notes; a gap is moved over. */
export const writeEvent = (event: TuneEvent, ties: NoteTies, place: NotePlace): string => {
  const { id, kind, value, pitches, length, tuplet } = event;
  const duration = textElement('duration', `${countDivisions(length, place.divisions)}`);
  const graces = writeGraces(event.graces, place).join('');
  const own = [textElement('voice', `${place.voice}`)];
  if (kind === 'space')
    return graces + (length.num === 0 ? '' : element('forward', {}, [duration, ...own, inStaff(place)]));
  const modification =
    tuplet === null
      ? ''
      : element('time-modification', {}, [
          textElement('actual-notes', `${tuplet.count}`),
          textElement('normal-notes', `${tuplet.inTimeOf}`),
        ]);
  if (kind !== 'note' || pitches.length === 0) {
    const rest = kind === 'bar-rest' ? '<rest measure="yes"/>' : '<rest/>';
    const type = kind === 'bar-rest' ? '' : writeType(value);
    const notations = writeNotations(event, null, true, place.spans, ties.tuplet);
    return (
      graces +
      element('note', { id }, [rest, duration, ...own, type, modification, inStaff(place), notations])
    );
  }
  const heads = pitches.map((each, index) =>
    element('note', { id: pitches.length === 1 ? id : `${id}p${index + 1}` }, [
      index === 0 ? '' : '<chord/>',
      writePitch(each.pitch),
      duration,
      each.tieEnds ? '<tie type="stop"/>' : '',
      each.tieStarts ? '<tie type="start"/>' : '',
      ...own,
      writeType(value),
      writeAccidental(each),
      modification,
      event.diamond ? DIAMOND : '',
      inStaff(place),
      ...writeBeams(index === 0 ? ties.beams : []),
      writeNotations(event, each, index === 0, place.spans, ties.tuplet),
      ...(index === 0
        ? event.lyrics.map((syllable, verse) => writeLyric(syllable, verse, ties.inWord[verse] ?? false))
        : []),
    ]),
  );
  return graces + heads.join('');
};
