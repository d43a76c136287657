/** Small scores in note names for tests of the page: bars as `upper / lower`, notes as `c4.4` (octave, then length). */

const ACCIDENTALS: Readonly<Record<string, string>> = { '#': 's', b: 'f', '': 'n', '##': 'x', bb: 'ff' };

/** `c#4.8` is an eighth on C sharp 4; `c4+e4.2` a chord; `r.4` a rest; `R` a whole bar's rest. */
const meiEvent = (token: string): string => {
  if (token === 'R') return '<mRest/>';
  const [names = '', length = '4'] = token.split('.');
  if (names === 'r') return `<rest dur="${length}"/>`;
  const notes = names.split('+').map((name) => {
    const [, letter, sign = '', octave] = /^([a-g])(##|#|bb|b)?(\d)$/.exec(name)!;
    const accidental = sign === '' ? 'accid.ges="n"' : `accid="${ACCIDENTALS[sign]}"`;
    return (dur: string) => `<note pname="${letter}" oct="${octave}" ${accidental}${dur}/>`;
  });
  const dur = ` dur="${length}"`;
  return notes.length === 1
    ? notes[0]!(dur)
    : `<chord${dur}>${notes.map((note) => note('')).join('')}</chord>`;
};

const meiStaff = (n: number, text: string): string =>
  `<staff n="${n}"><layer n="1">${text.trim().split(/\s+/).map(meiEvent).join('')}</layer></staff>`;

export interface SmallScore {
  readonly bars: readonly string[];
  readonly title?: string;
  /** Events beside the staves of a bar, by its index. */
  readonly events?: Readonly<Record<number, string>>;
  /** Attributes of a bar's measure, by its index. */
  readonly measures?: Readonly<Record<number, string>>;
  /** What stands before a bar's measure, by its index. */
  readonly before?: Readonly<Record<number, string>>;
}

export const meiScore = ({
  bars,
  title = 'Reeds',
  events = {},
  measures = {},
  before = {},
}: SmallScore): Uint8Array => {
  const body = bars.map((bar, i) => {
    const [upper = 'R', lower = 'R'] = bar.split('/');
    const attributes = `n="${i + 1}" ${measures[i] ?? ''}`;
    return `${before[i] ?? ''}<measure ${attributes}>${meiStaff(1, upper)}${meiStaff(2, lower)}${events[i] ?? ''}</measure>`;
  });
  return new TextEncoder().encode(
    `<?xml version="1.0" encoding="UTF-8"?>
<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.1"><meiHead><fileDesc><titleStmt><title>${title}</title>
<respStmt><persName role="composer">N. N.</persName></respStmt></titleStmt><pubStmt/></fileDesc></meiHead>
<music><body><mdiv><score><scoreDef meter.count="4" meter.unit="4" keysig="0">
<staffGrp symbol="brace" bar.thru="true"><label>Harp</label>
<staffDef n="1" lines="5" clef.shape="G" clef.line="2"/><staffDef n="2" lines="5" clef.shape="F" clef.line="4"/></staffGrp>
</scoreDef><section>${body.join('\n')}</section></score></mdiv></body></music></mei>`,
  );
};

const xmlNote = (staff: number, pitch: string | null): string => {
  const what =
    pitch === null
      ? '<rest measure="yes"/>'
      : `<pitch><step>${pitch[0]!.toUpperCase()}</step><octave>${pitch.slice(1)}</octave></pitch>`;
  return `<note>${what}<duration>4</duration><voice>${staff}</voice>${pitch === null ? '' : '<type>whole</type>'}<staff>${staff}</staff></note>`;
};

/**
 * A full score in MusicXML of a flute, whose bars hold the directions, and a harp.
 *
 * @param harp for each bar the whole note of the upper staff, or null for a rest
 * @param directions content of the flute's directions, by index of the bar
 */
export const fluteAndHarp = (
  harp: readonly (string | null)[],
  directions: Readonly<Record<number, string>>,
): Uint8Array => {
  const attributes = (staves: number) =>
    `<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time>${staves === 2 ? '<staves>2</staves>' : ''}</attributes>`;
  const flute = harp.map(
    (_, i) =>
      `<measure number="${i + 1}">${i === 0 ? attributes(1) : ''}${directions[i] ?? ''}<note><pitch><step>G</step><octave>5</octave></pitch><duration>4</duration><voice>1</voice><type>whole</type></note></measure>`,
  );
  const bars = harp.map(
    (pitch, i) =>
      `<measure number="${i + 1}">${i === 0 ? attributes(2) : ''}${xmlNote(1, pitch)}<backup><duration>4</duration></backup>${xmlNote(2, null)}</measure>`,
  );
  return new TextEncoder().encode(
    `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><work><work-title>Weir</work-title></work>
<part-list><score-part id="P1"><part-name>Flute</part-name></score-part><score-part id="P2"><part-name>Harp</part-name></score-part></part-list>
<part id="P1">${flute.join('')}</part><part id="P2">${bars.join('')}</part></score-partwise>`,
  );
};

/** @param sound attributes of the direction's `sound`, such as a tempo */
export const directionOf = (type: string, sound = ''): string =>
  `<direction placement="above"><direction-type>${type}</direction-type>${sound === '' ? '' : `<sound ${sound}/>`}</direction>`;

/**
 * A full score in MEI of a flute (staff 1, bracketed together with the harp) and a harp (staves 2 and 3), each with whole
 * notes.
 *
 * @param events beside the staves of each bar; the flute's note of bar 2 has the id `flute-2`
 */
export const meiFluteAndHarp = (events: readonly string[]): Uint8Array => {
  const note = (id: string, octave: number) => `<note xml:id="${id}" pname="g" oct="${octave}" dur="1"/>`;
  const staff = (n: number, content: string) => `<staff n="${n}"><layer>${content}</layer></staff>`;
  const measures = events.map((event, i) => {
    const staves = [note(`flute-${i + 1}`, 5), note(`upper-${i + 1}`, 4), note(`lower-${i + 1}`, 3)];
    return `<measure n="${i + 1}">${staves.map((content, s) => staff(s + 1, content)).join('')}${event}</measure>`;
  });
  return new TextEncoder().encode(
    `<?xml version="1.0" encoding="UTF-8"?>
<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.1"><meiHead><fileDesc><titleStmt><title>Weir</title></titleStmt><pubStmt/></fileDesc></meiHead>
<music><body><mdiv><score><scoreDef meter.count="4" meter.unit="4" keysig="0"><staffGrp symbol="bracket">
<staffDef n="1" lines="5" clef.shape="G" clef.line="2"><label>Flute</label></staffDef>
<staffGrp symbol="brace"><label>Harp</label><staffDef n="2" lines="5" clef.shape="G" clef.line="2"/><staffDef n="3" lines="5" clef.shape="F" clef.line="4"/></staffGrp>
</staffGrp></scoreDef><section>${measures.join('\n')}</section></score></mdiv></body></music></mei>`,
  );
};
