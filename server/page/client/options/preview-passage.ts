const note = (
  step: string,
  alter: number,
  octave: number,
  type: string,
  duration: number,
  rest = '',
): string =>
  `<note>${rest}<pitch><step>${step}</step>${alter === 0 ? '' : `<alter>${alter}</alter>`}` +
  `<octave>${octave}</octave></pitch><duration>${duration}</duration><voice>1</voice><type>${type}</type>` +
  `${alter > 0 ? `<accidental>${alter === 1 ? 'sharp' : 'double-sharp'}</accidental>` : ''}<staff>1</staff></note>`;

const low = (step: string, alter: number, octave: number): string =>
  `<backup><duration>16</duration></backup>${note(step, alter, octave, 'whole', 16)
    .replace('<voice>1', '<voice>2')
    .replace('<staff>1', '<staff>2')}`;

const quarters = (...notes: readonly (readonly [string, number, number])[]): string =>
  notes.map(([step, alter, octave]) => note(step, alter, octave, 'quarter', 4)).join('');

const HEAD =
  '<attributes><divisions>4</divisions><key><fifths>-2</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves>' +
  '<clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>F</sign><line>4</line></clef></attributes>' +
  '<direction><direction-type><words/></direction-type><sound tempo="80"/></direction>';

/**
 * A short invented passage on which a look can be judged: a setting at its start, a change of one foot, one of both, a
 * note that no string gives as written, and strings of every colour.
 */
export const PREVIEW_PASSAGE =
  '<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Harp</part-name></score-part></part-list><part id="P1">' +
  `<measure number="1">${HEAD}${quarters(['F', 0, 4], ['B', -1, 4], ['D', 0, 5], ['C', 0, 5])}${low('B', -1, 2)}</measure>` +
  `<measure number="2">${quarters(['F', 1, 4], ['A', 0, 4], ['C', 0, 5], ['D', 0, 5])}${low('D', 0, 3)}</measure>` +
  `<measure number="3">${quarters(['G', 0, 4], ['C', 1, 5], ['E', 0, 5], ['F', 2, 4])}${low('A', 0, 2)}</measure>` +
  '</part></score-partwise>';
