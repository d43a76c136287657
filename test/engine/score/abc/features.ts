/** Every feature of ABC that is carried over, each with the elements of MusicXML that it becomes. */
export const FEATURES: readonly (readonly [feature: string, music: string, elements: readonly string[]])[] = [
  [
    'an accidental',
    '^C _D =E',
    ['<accidental>sharp</accidental>', '<alter>-1</alter>', '<accidental>natural</accidental>'],
  ],
  ['a quarter-tone', '^/C', ['<alter>0.5</alter>', '<accidental>quarter-sharp</accidental>']],
  ['a chord', '[CEG]2', ['<chord/>']],
  [
    'a triplet',
    '(3CDE',
    ['<actual-notes>3</actual-notes>', '<tuplet type="start"/>', '<tuplet type="stop"/>'],
  ],
  ['beams of two lengths', 'C/D/E', ['<beam number="2">begin</beam>', '<beam number="1">end</beam>']],
  ['a stump of a beam', 'C3/2D/', ['<beam number="2">backward hook</beam>']],
  [
    'a tie and a slur',
    'C-C (DE)',
    ['<tie type="start"/>', '<tied type="stop"/>', '<slur type="start" number="1"/>'],
  ],
  ['grace notes', '{/d}C {de}C', ['<grace slash="yes"/>', '<grace/>']],
  [
    'ornaments',
    'TC !mordent!D !uppermordent!E !turn!F',
    ['<trill-mark', '<mordent', '<inverted-mordent', '<turn'],
  ],
  [
    'articulations',
    '.C !>!D uE vF !tenuto!G',
    ['<staccato/>', '<accent/>', '<up-bow/>', '<down-bow/>', '<tenuto/>'],
  ],
  [
    'a fermata, a roll and a finger',
    'HC !arpeggio![CE] !3!D',
    ['<fermata', '<arpeggiate/>', '<fingering>3</fingering>'],
  ],
  [
    'dynamics and hairpins',
    '!p!C !<(!DE!<)!F',
    ['<dynamics><p/></dynamics>', '<wedge type="crescendo" number="1"/>', '<wedge type="stop"'],
  ],
  [
    'chord symbols',
    '"G7"C "F#m/A"D "?"E "Bb/d"F',
    [
      'text="7">dominant</kind>',
      '<root-alter>1</root-alter>',
      '<bass-step>A</bass-step>',
      '<bass-step>D</bass-step>',
      '<words>?</words>',
    ],
  ],
  [
    'words',
    '"^dolce"C "_sost."D',
    [
      '<direction placement="above"><direction-type><words>dolce',
      '<direction placement="below"><direction-type><words>sost.',
    ],
  ],
  [
    'lyrics',
    'CDEF|\nw:lan-ter-n_ x',
    ['<syllabic>begin</syllabic>', '<syllabic>middle</syllabic>', '<extend/>'],
  ],
  [
    'repeats with endings',
    '|:CDEF|1 G4:|2 A4|]',
    [
      '<repeat direction="forward"/>',
      '<ending number="1" type="start"/>',
      '<ending number="2" type="stop"/>',
      'light-heavy',
    ],
  ],
  ['parts', 'P:A\nCDEF|\nP:B\nGABc|', ['<rehearsal>A</rehearsal>', '<rehearsal>B</rehearsal>']],
  ['jumps', '!segno!CDEF|!coda!GABc|!D.S.!C4|', ['<segno/>', '<coda/>', 'dalsegno="segno"']],
  [
    'a tempo',
    '[Q:"Gently" 3/8=40]CDEF|',
    ['<beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>40', 'tempo="60"', '<words>Gently</words>'],
  ],
  [
    'keys and meters on the way',
    'CDEF|[K:Eb][M:6/8]EFGABc|',
    ['<fifths>-3</fifths>', '<beats>6</beats><beat-type>8</beat-type>'],
  ],
  [
    'clefs',
    '[K:C clef=bass]C,D,|[K:C clef=treble-8]EF|',
    ['<sign>F</sign>', '<clef-octave-change>-1</clef-octave-change>'],
  ],
  ['rests and gaps', 'Cz2x2|Z|', ['<rest/>', '<forward>', '<rest measure="yes"/>']],
];
