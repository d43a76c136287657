const bar = (number: number, notes: string): string =>
  `<measure number="${number}">${
    number === 1
      ? '<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>'
      : ''
  }${notes}</measure>`;

/** A note such as `F5`, `F#4`, a quarter long; `chord` for one that sounds with the note before. */
const note = (name: string, chord = false): string => {
  const [, step, sharp, octave] = /^([A-G])(#?)(\d)$/.exec(name)!;
  return (
    `<note>${chord ? '<chord/>' : ''}<pitch><step>${step}</step>${sharp === '#' ? '<alter>1</alter>' : ''}` +
    `<octave>${octave}</octave></pitch><duration>1</duration><type>quarter</type></note>`
  );
};

const score = (parts: readonly { readonly name: string; readonly bars: readonly string[] }[]): string =>
  `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list>${parts
    .map(({ name }, i) => `<score-part id="P${i + 1}"><part-name>${name}</part-name></score-part>`)
    .join('')}</part-list>${parts
    .map(({ bars }, i) => `<part id="P${i + 1}">${bars.join('')}</part>`)
    .join('')}</score-partwise>`;

const scale = (...names: readonly string[]): string => names.map((name) => note(name)).join('');

/** Two parts, neither of which says that it is a harp. */
export const TWO_PARTS = score([
  { name: 'Upper brook', bars: [bar(1, scale('C5', 'D5', 'E5', 'F5'))] },
  {
    name: 'Lower brook',
    bars: [bar(1, scale('C4', 'D4', 'E4', 'F#4')), bar(2, scale('F4', 'E4', 'D4', 'C4'))],
  },
]);

/** A harp whose bar holds a rest alone, and another part. */
export const SILENT_HARP = score([
  { name: 'Harp', bars: [bar(1, '<note><rest measure="yes"/><duration>4</duration></note>')] },
  { name: 'Lower brook', bars: [bar(1, scale('C4', 'D4', 'E4', 'F#4'))] },
]);

/** Two harps: the first has a move of the F pedal, the second one of the C pedal. */
export const TWO_HARPS = score([
  { name: 'Harp', bars: [bar(1, scale('F4', 'G4', 'A4', 'B4')), bar(2, scale('F#4', 'G4', 'A4', 'B4'))] },
  { name: 'Harp', bars: [bar(1, scale('C4', 'D4', 'E4', 'D4')), bar(2, scale('C#4', 'D4', 'E4', 'D4'))] },
]);

const movement = (title: string, ...notes: readonly string[]): string => {
  const written = notes.map((name) => {
    const [, letter, sign, octave] = /^([A-G])([#b]?)(\d)$/.exec(name)!;
    const accid = sign === '' ? '' : ` accid="${sign === '#' ? 's' : 'f'}"`;
    return `<note pname="${letter!.toLowerCase()}" oct="${octave}" dur="4"${accid}/>`;
  });
  return (
    `<mdiv label="${title}"><score><scoreDef meter.count="4" meter.unit="4"><staffGrp><staffDef n="1" lines="5" clef.shape="G" clef.line="2"><label>Harp</label></staffDef></staffGrp></scoreDef>` +
    `<section><measure n="1"><staff n="1"><layer n="1">${written.join('')}</layer></staff></measure></section></score></mdiv>`
  );
};

/** Two movements: the first changes F, the second C. */
export const TWO_MOVEMENTS = `<?xml version="1.0" encoding="UTF-8"?><mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><music><body>${movement(
  'Ebb',
  'F4',
  'G4',
  'A4',
  'F#4',
)}${movement('Flood', 'C4', 'D4', 'E4', 'C#4')}</body></music></mei>`;

/** Two pedals of the left foot go to and fro from beat to beat: there is time at the written tempo, not much above it. */
export const CLOSE_MOVES = score([
  {
    name: 'Harp',
    bars: [1, 2].map((number) =>
      bar(number, ['', '#', '', '#'].map((sign) => note(`C${sign}4`) + note(`D${sign}4`, true)).join('')),
    ),
  },
]);

const PRESTO =
  '<direction placement="above"><direction-type><words>Presto</words></direction-type><sound tempo="400"/></direction>';

/** The F pedal goes to and fro from beat to beat, at a tempo at which a foot has no time for it. */
export const HURRIED = score([
  {
    name: 'Harp',
    bars: [
      bar(1, PRESTO + scale('F4', 'F#4', 'F4', 'F#4')),
      bar(2, scale('G4', 'A4', 'B4', 'C5')),
      bar(3, scale('G4', 'A4', 'B4', 'C5')),
      bar(4, scale('G4', 'A4', 'B4', 'C5')),
    ],
  },
]);

/** A long part in which the C pedal moves in every bar. */
export const longPart = (bars: number): string =>
  score([
    {
      name: 'Harp',
      bars: Array.from({ length: bars }, (_, i) =>
        bar(i + 1, scale(i % 2 === 0 ? 'C4' : 'C#4', 'G4', 'E4', 'G4')),
      ),
    },
  ]);

/** In bar 2 one pedal is asked for F natural and F sharp at the same time; bar 3 asks for a move of the A pedal. */
export const IMPOSSIBLE = score([
  {
    name: 'Harp',
    bars: [
      bar(1, scale('C4', 'D4', 'E4', 'F4')),
      bar(2, note('F4') + note('F#5', true) + scale('G4', 'A4', 'B4')),
      bar(3, scale('A#4', 'B4', 'C5', 'D5')),
    ],
  },
]);

const whole = (each: string): string =>
  each.replaceAll('<duration>1</duration><type>quarter</type>', '<duration>4</duration><type>whole</type>');

/** In bar 1 one pedal is asked for D natural and D sharp at the same time, for the whole bar. */
export const LONG_CHORD = score([
  {
    name: 'Harp',
    bars: [bar(1, whole(note('D4') + note('D#5', true))), bar(2, scale('A4', 'B4', 'C5', 'A4'))],
  },
]);

/** A lever harp on which the levers of many strings change, one after the other. */
export const MANY_LEVERS = score([
  {
    name: 'Lever harp',
    bars: [2, 3, 4, 5].flatMap((octave, i) =>
      ['CD', 'DE', 'FG', 'GA'].map(([low, high], k) =>
        bar(
          4 * i + k + 1,
          scale(`${low}${octave}`, `${low}#${octave}`, `${high}${octave}`, `${low}${octave}`),
        ),
      ),
    ),
  },
]);

const BAR_OF_REST = '<note><rest measure="yes"/><duration>4</duration></note>';

/** A harp that rests for two bars while two others play. */
export const RESTING_HARP = score([
  {
    name: 'Harp',
    bars: [
      bar(1, scale('C4', 'D4', 'E4', 'F4')),
      bar(2, BAR_OF_REST),
      bar(3, BAR_OF_REST),
      bar(4, scale('C4', 'D4', 'E4', 'F4')),
    ],
  },
  ...['Flute', 'Oboe'].map((name) => ({
    name,
    bars: [1, 2, 3, 4].map((number) => bar(number, scale('C5', 'D5', 'E5', 'F5'))),
  })),
]);
