import type { Sign, TuneEvent, TunePitch } from '../tune.ts';
import { element, textElement } from '../write-xml.ts';
import type { SpansByEvent } from './numbered-spans.ts';

const ARTICULATIONS = {
  staccato: 'staccato',
  tenuto: 'tenuto',
  accent: 'accent',
  marcato: 'strong-accent',
  staccatissimo: 'staccatissimo',
} as const;

const ORNAMENTS = {
  trill: 'trill-mark',
  mordent: 'mordent',
  'inverted-mordent': 'inverted-mordent',
  turn: 'turn',
  'inverted-turn': 'inverted-turn',
} as const;

/** Whether a tuplet begins or ends at an event. */
export interface TupletEnds {
  readonly starts: boolean;
  readonly ends: boolean;
}

const wrapped = (name: string, content: readonly string[]): string =>
  content.length === 0 ? '' : element(name, {}, [...new Set(content)]);

const writeSigns = (signs: readonly Sign[]): readonly string[] => {
  const ornaments: string[] = [];
  const technical: string[] = [];
  const articulations: string[] = [];
  let fermata = '';
  for (const sign of signs) {
    if (sign.kind === 'ornament') ornaments.push(element(ORNAMENTS[sign.name], { placement: 'above' }));
    else if (sign.kind === 'fermata') fermata = '<fermata type="upright"/>';
    else if (sign.kind === 'finger') technical.push(textElement('fingering', sign.text));
    else if (sign.kind === 'articulation') {
      if (sign.name === 'up-bow' || sign.name === 'down-bow') technical.push(`<${sign.name}/>`);
      else articulations.push(`<${ARTICULATIONS[sign.name]}/>`);
    }
  }
  return [
    wrapped('ornaments', ornaments),
    wrapped('technical', technical),
    wrapped('articulations', articulations),
    fermata,
  ];
};

const writeSpans = ({ id }: TuneEvent, { starting, ending }: SpansByEvent): readonly string[] => {
  const write = (type: 'start' | 'stop') => (span: { kind: string; number: number }) =>
    span.kind === 'slur' || span.kind === 'glissando'
      ? element(span.kind, {
          type,
          number: span.number,
          'line-type': span.kind === 'glissando' ? 'wavy' : null,
        })
      : '';
  return [...(ending.get(id) ?? []).map(write('stop')), ...(starting.get(id) ?? []).map(write('start'))];
};

/** What stands in `notations` at one head of an event; all but ties and arpeggios at the first. */
export const writeNotations = (
  event: TuneEvent,
  pitch: TunePitch | null,
  isFirst: boolean,
  spans: SpansByEvent,
  { starts, ends }: TupletEnds,
): string => {
  const rolled = event.pitches.length > 1 && event.signs.some(({ kind }) => kind === 'arpeggio');
  const content = [
    pitch?.tieEnds === true ? '<tied type="stop"/>' : '',
    pitch?.tieStarts === true ? '<tied type="start"/>' : '',
    ...(isFirst ? writeSpans(event, spans) : []),
    isFirst && ends ? '<tuplet type="stop"/>' : '',
    isFirst && starts ? '<tuplet type="start"/>' : '',
    ...(isFirst ? writeSigns(event.signs) : []),
    rolled ? '<arpeggiate/>' : '',
  ].filter((each) => each !== '');
  return content.length === 0 ? '' : element('notations', {}, content);
};
