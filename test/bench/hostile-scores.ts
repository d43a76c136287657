/** Scores that are short to write and long to work on: each is one thing that grows. */

const score = (bars: readonly string[], head = ''): string =>
  `<score-partwise version="4.0">${head}<part-list><score-part id="P1"><part-name>Harp</part-name></score-part></part-list><part id="P1">${bars
    .map(
      (bar, index) =>
        `<measure number="${index + 1}">${
          index === 0
            ? '<attributes><divisions>4</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>'
            : ''
        }${bar}</measure>`,
    )
    .join('')}</part></score-partwise>`;

const STEPS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;

const ALTERS = [0, 1, 0, -1, 1] as const;

/** The `number`th of a row of pitches that asks the pedals to move all the time. */
const note = (number: number, duration: number, inside = '', before = ''): string =>
  `<note>${before}<pitch><step>${STEPS[number % 7]}</step><alter>${ALTERS[number % 5]}</alter><octave>${2 + (number % 5)}</octave></pitch><duration>${duration}</duration><type>${duration === 16 ? 'whole' : '16th'}</type>${inside}</note>`;

const times = <T>(count: number, make: (index: number) => T): readonly T[] =>
  Array.from({ length: count }, (_, index) => make(index));

export const chordOf = (notes: number): string =>
  score([times(notes, (i) => note(i, 16, '', i === 0 ? '' : '<chord/>')).join('')]);

export const emptyBars = (bars: number): string => score(times(bars, (i) => (i === 0 ? note(0, 16) : '')));

export const glissandiInOneBar = (glissandi: number): string =>
  score([
    times(glissandi, (i) =>
      [
        note(2 * i, 1, '<notations><glissando type="start" number="1"/></notations>'),
        note(2 * i + 9, 1, '<notations><glissando type="stop" number="1"/></notations>'),
      ].join(''),
    ).join(''),
  ]);

export const oneNoteBars = (bars: number): string => score(times(bars, (i) => note(i, 16)));

const WORD = 'harp ';

export const longTitle = (words: number): string =>
  score([note(0, 16)], `<work><work-title>${WORD.repeat(words)}</work-title></work>`);

export const lyricsOn = (lyrics: number): string =>
  score([note(0, 16, times(lyrics, (i) => `<lyric number="${i + 1}"><text>la</text></lyric>`).join(''))]);

export const voices = (count: number): string =>
  score([
    times(
      count,
      (i) =>
        `${note(i, 16, '', '').replace('<type>', `<voice>${i + 1}</voice><type>`)}<backup><duration>16</duration></backup>`,
    ).join(''),
  ]);

/** MEI in which an expansion names its one section so many times. */
export const expansionOf = (entries: number): string =>
  `<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc><titleStmt><title/></titleStmt><pubStmt/></fileDesc></meiHead><music><body><mdiv><score><scoreDef meter.count="4" meter.unit="4"><staffGrp><staffDef n="1" lines="5" label="Harp" clef.shape="G" clef.line="2"/></staffGrp></scoreDef><section xml:id="all"><expansion xml:id="e" plist="${'#a '.repeat(entries).trim()}"/><section xml:id="a"><measure n="1"><staff n="1"><layer n="1"><note pname="c" oct="4" dur="1"/></layer></staff></measure></section></section></score></mdiv></body></music></mei>`;
