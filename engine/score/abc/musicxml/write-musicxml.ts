import { add, compare, type Rational, ZERO } from '../../../music/rational.ts';
import type { Tune, TuneBar, TuneEvent, TuneMeter } from '../tune.ts';
import { type Attributes, element, textElement } from '../write-xml.ts';
import { tieNotes } from './note-ties.ts';
import { numberSpans, type SpansByEvent } from './numbered-spans.ts';
import {
  type BarVoice,
  countDivisions,
  divisionsOf,
  endOf,
  gapBetween,
  numberVoices,
  type PartStaves,
  partsOf,
  voicesOf,
} from './voices.ts';
import { writeBarLines } from './write-bar-lines.ts';
import { writeAfter, writeBefore, writeMark } from './write-directions.ts';
import { type NotePlace, writeEvent } from './write-note.ts';

/** Writes a tune as MusicXML 4.0. @param partName the name of the part, by which the harp is found */
export const writeMusicXml = (tune: Tune, partName: string): string => {
  const parts = partsOf(tune, partName);
  const divisions = divisionsOf(tune);
  const order = tune.bars.flatMap(({ layers }) => layers.flatMap(({ events }) => events.map(({ id }) => id)));
  const spans = numberSpans(tune.spans, order);
  const list = parts.map(({ id, name }) => element('score-part', { id }, textElement('part-name', name)));
  const root = element('score-partwise', { version: '4.0' }, [
    ...writeTitles(tune),
    element('part-list', {}, list),
    ...parts.map((part, index) =>
      element('part', { id: part.id }, new PartWriter(tune, part, divisions, spans).write(index === 0)),
    ),
  ]);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${root}\n`;
};

const writeTitles = ({ titles, composer, fields }: Tune): readonly string[] => {
  const [title = '', ...others] = titles;
  const miscellaneous = fields.map(({ letter, text }) =>
    textElement('miscellaneous-field', text, { name: letter }),
  );
  const identification = [
    textElement('creator', composer, { type: 'composer' }),
    miscellaneous.join('') === '' ? '' : element('miscellaneous', {}, miscellaneous),
  ].join('');
  return [
    title === '' ? '' : element('work', {}, textElement('work-title', title)),
    textElement('movement-title', others.join('; ')),
    identification === '' ? '' : element('identification', {}, identification),
  ];
};

/** Writes the bars of one part, and keeps what goes on from bar to bar. */
class PartWriter {
  readonly #tune: Tune;
  readonly #part: PartStaves;
  readonly #divisions: number;
  readonly #spans: SpansByEvent;
  readonly #voices: ReadonlyMap<string, number>;
  /** By voice and verse, whether a word goes on. */
  readonly #words = new Map<number, boolean[]>();
  #measured: boolean | null = null;

  constructor(tune: Tune, part: PartStaves, divisions: number, spans: SpansByEvent) {
    this.#tune = tune;
    this.#part = part;
    this.#divisions = divisions;
    this.#spans = spans;
    this.#voices = numberVoices(tune, part);
  }

  /** @param isFirst what concerns all parts stands in the first */
  write(isFirst: boolean): readonly string[] {
    return this.#tune.bars.map((bar, index) => {
      const { left, right } = writeBarLines(bar);
      const voices = voicesOf(bar, this.#part, this.#voices);
      const content = [
        index > 0 && bar.newLine ? '<print new-system="yes"/>' : '',
        left,
        this.#attributes(bar, index),
        ...this.#voicesOf(bar, voices, isFirst),
        right,
      ];
      return `${element('measure', this.#number(bar, index), content)}\n`;
    });
  }

  /** A bar that leads to the first has the number 0; where none counts, all do. */
  #number({ number }: TuneBar, index: number): Attributes {
    if (number !== null) return { number };
    if (this.#tune.bars.every((bar) => bar.number === null)) return { number: index + 1 };
    return { number: index === 0 ? 0 : `X${index}`, implicit: 'yes' };
  }

  #attributes(bar: TuneBar, index: number): string {
    const { staves } = this.#part;
    const clefs =
      index === 0
        ? staves.map((staff) => ({ staff, clef: this.#tune.staves[staff - 1]!.clef }))
        : bar.clefs.filter(({ staff }) => staves.includes(staff));
    const content = [
      index === 0 ? textElement('divisions', `${this.#divisions}`) : '',
      bar.key === null
        ? ''
        : element('key', {}, [
            textElement('fifths', `${bar.key.printed}`),
            bar.key.mode === null ? '' : textElement('mode', bar.key.mode),
          ]),
      this.#meter(bar),
      index === 0 && staves.length > 1 ? textElement('staves', `${staves.length}`) : '',
      ...clefs.map(({ staff, clef: { shape, line, octaves } }) =>
        element('clef', { number: staves.length > 1 ? staves.indexOf(staff) + 1 : null }, [
          textElement('sign', shape === 'perc' ? 'percussion' : shape),
          textElement('line', `${line}`),
          octaves === 0 ? '' : textElement('clef-octave-change', `${octaves}`),
        ]),
      ),
    ].join('');
    return content === '' ? '' : element('attributes', {}, content);
  }

  #meter({ meter, measured }: TuneBar): string {
    const was = this.#measured;
    this.#measured = measured;
    if (meter !== null) return writeMeter(meter);
    return !measured && was !== false ? element('time', {}, '<senza-misura/>') : '';
  }

  #voicesOf(bar: TuneBar, voices: readonly BarVoice[], isFirst: boolean): readonly string[] {
    const content: string[] = [];
    let at = ZERO;
    for (const [index, voice] of voices.entries()) {
      const back = countDivisions(at, this.#divisions);
      if (back > 0) content.push(element('backup', {}, textElement('duration', `${back}`)));
      content.push(this.#voice(bar, voice, isFirst && index === 0));
      at = voice.events.length === 0 ? bar.length : endOf(voice.events);
    }
    return content;
  }

  #voice(bar: TuneBar, { staff, voice, events }: BarVoice, isMarked: boolean): string {
    const { staves } = this.#part;
    const place: NotePlace = {
      voice,
      staff: staves.length > 1 ? staves.indexOf(staff) + 1 : null,
      divisions: this.#divisions,
      spans: this.#spans,
    };
    const marks = isMarked ? [...bar.marks] : [];
    const take = (onset: Rational, isLast: boolean): string => {
      const here = marks.filter(({ at }) => isLast || compare(at, onset) <= 0);
      marks.splice(0, marks.length, ...marks.filter((mark) => !here.includes(mark)));
      return here
        .map((mark) => writeMark(mark, gapBetween(onset, mark.at, this.#divisions), place.staff))
        .join('');
    };
    if (events.length === 0) return take(ZERO, true) + writeBarRest(bar.length, place);
    const inWord = this.#words.get(voice) ?? [];
    this.#words.set(voice, inWord);
    const ties = tieNotes(events, inWord);
    let at = ZERO;
    const written = events.map((event, index) => {
      const gap = gapBetween(at, event.onset, this.#divisions);
      at = add(event.onset, event.length);
      return [
        gap > 0 ? writeForward(gap, place) : '',
        take(event.onset, false),
        writeBefore(event, this.#spans, place.staff),
        writeEvent(event, ties[index]!, place),
        writeAfter(event, this.#spans, place.staff),
      ].join('');
    });
    return written.join('') + take(endOf(events), true);
  }
}

const writeForward = (divisions: number, { voice }: NotePlace): string =>
  element('forward', {}, [textElement('duration', `${divisions}`), textElement('voice', `${voice}`)]);

const writeBarRest = (length: TuneEvent['length'], { voice, staff, divisions }: NotePlace): string =>
  length.num === 0
    ? ''
    : element('note', {}, [
        '<rest measure="yes"/>',
        textElement('duration', `${countDivisions(length, divisions)}`),
        textElement('voice', `${voice}`),
        staff === null ? '' : textElement('staff', `${staff}`),
      ]);

const writeMeter = ({ count, unit, symbol }: TuneMeter): string =>
  element('time', { symbol }, [textElement('beats', count), textElement('beat-type', `${unit}`)]);
