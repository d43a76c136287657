/** Scores of two harps for tests, of our own invention: a flute and two harps, each on two staves. */

const note = (staff: number, name: string): string => {
  const [, step, sign = '', octave] = /^([A-G])(#|b)?(\d)$/.exec(name)!;
  const alter = sign === '' ? '' : `<alter>${sign === '#' ? 1 : -1}</alter>`;
  return (
    `<note><pitch><step>${step}</step>${alter}<octave>${octave}</octave></pitch><duration>1</duration>` +
    `<voice>${staff === 1 ? 1 : 5}</voice><type>quarter</type><staff>${staff}</staff></note>`
  );
};

const rest = (staff: number): string =>
  `<note><rest measure="yes"/><duration>4</duration><voice>${staff === 1 ? 1 : 5}</voice><staff>${staff}</staff></note>`;

const staffMusic = (staff: number, text: string): string =>
  text.trim() === 'R'
    ? rest(staff)
    : text
        .trim()
        .split(/\s+/)
        .map((name) => note(staff, name))
        .join('');

const attributes = (staves: 1 | 2): string => {
  const lower = staves === 2 ? '<clef number="2"><sign>F</sign><line>4</line></clef>' : '';
  return (
    `<attributes><divisions>1</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time>` +
    `<staves>${staves}</staves><clef number="1"><sign>G</sign><line>2</line></clef>${lower}</attributes>`
  );
};

/** Bars of a harp: four crotchets a staff as `upper / lower`, or `R` for a rest. */
const harpPart = (id: string, bars: readonly string[]): string => {
  const measures = bars.map((bar, index) => {
    const [upper = 'R', lower = 'R'] = bar.split('/');
    const music = `${staffMusic(1, upper)}<backup><duration>4</duration></backup>${staffMusic(2, lower)}`;
    return `<measure number="${index + 1}">${index === 0 ? attributes(2) : ''}${music}</measure>`;
  });
  return `<part id="${id}">${measures.join('\n')}</part>`;
};

/** Two harps as a file of MusicXML, with a flute that rests; as many bars as the first harp has. */
export const twoHarps = (
  first: readonly string[],
  second: readonly string[],
  names: readonly [string, string] = ['Harp I', 'Harp II'],
): Uint8Array => {
  const flute = first.map(
    (_, index) =>
      `<measure number="${index + 1}">${index === 0 ? attributes(1) : ''}<note><rest measure="yes"/><duration>4</duration></note></measure>`,
  );
  const listed = ['Flute', ...names].map(
    (name, index) => `<score-part id="P${index + 1}"><part-name>${name}</part-name></score-part>`,
  );
  return new TextEncoder().encode(
    `<?xml version="1.0" encoding="UTF-8"?>\n<score-partwise version="4.0"><work><work-title>Ferry bells</work-title></work>\n` +
      `<part-list>${listed.join('')}</part-list>\n<part id="P1">${flute.join('')}</part>\n` +
      `${harpPart('P2', first)}\n${harpPart('P3', second)}\n</score-partwise>\n`,
  );
};

/** One harp as a file of MusicXML, of the same bars. */
export const oneHarp = (bars: readonly string[], name = 'Harp'): Uint8Array =>
  new TextEncoder().encode(
    `<?xml version="1.0" encoding="UTF-8"?>\n<score-partwise version="4.0"><work><work-title>Two lamps</work-title></work>\n` +
      `<part-list><score-part id="P1"><part-name>${name}</part-name></score-part></part-list>\n${harpPart('P1', bars)}\n</score-partwise>\n`,
  );

/** Two harps that need pedals of their own: what one plays natural, the other plays sharp or flat. */
export const FERRY_BELLS = twoHarps(
  [
    'C5 E5 G5 E5 / C3 G3 C4 G3',
    'C#5 E5 A5 E5 / A2 E3 A3 E3',
    'R / R',
    'Bb4 D5 F5 D5 / Bb2 F3 Bb3 F3',
    'C5 E5 G5 C6 / C3 G3 C4 E4',
  ],
  [
    'R / R',
    'A4 C#5 E5 C#5 / A2 E3 A2 E3',
    'G4 B4 D5 B4 / G2 D3 G3 D3',
    'D5 F5 Bb5 F5 / Bb1 F2 Bb2 F2',
    'C#5 E5 A5 E5 / A2 E3 A3 E3',
  ],
);
