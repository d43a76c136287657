import { describe, expect, it } from 'vitest';
import { readArguments } from '../../../server/command/arguments/arguments.ts';

const read = (line: string, environment = {}) => readArguments(line.split(' ').filter(Boolean), environment);

describe('a command line', () => {
  const NO_OPTIONS = { named: {}, file: null };

  it.each([
    ['annotate a.xml', 'a.xml', 'a.pdf', 'pdf', {}],
    ['annotate dir.x/a', 'dir.x/a', 'dir.x/a.pdf', 'pdf', {}],
    ['annotate a.mei -o b.SVG', 'a.mei', 'b.SVG', 'svg', {}],
    ['annotate a.mei -o b.mei', 'a.mei', 'b.mei', 'mei', {}],
    ['annotate a.xml -o b.xml', 'a.xml', 'b.xml', 'musicxml', {}],
    ['annotate --part=P2 --output b.json a.mei', 'a.mei', 'b.json', 'json', { part: 'P2' }],
    ['annotate -- -a.xml', '-a.xml', '-a.pdf', 'pdf', {}],
    [
      'annotate --cross-feet a.xml --multi-bar-rests=false --settings-start=false --foot-rest-seconds 0.4 --paper-width-mm 200',
      'a.xml',
      'a.pdf',
      'pdf',
      {
        crossFeet: true,
        multiBarRests: false,
        settings: { start: false },
        footRestSeconds: 0.4,
        paper: { widthMm: 200 },
      },
    ],
  ])('tringle %s is understood', (line, input, output, form, named) => {
    expect(read(line)).toEqual({
      ok: true,
      command: {
        kind: 'annotate',
        files: [{ input, output }],
        form,
        folder: null,
        options: { named, file: null },
      },
    });
  });

  it.each(['annotate a.xml', 'plan a.xml', 'divide a.xml --out-dir b'])(
    'tringle %s takes the decisions from a file',
    (line) => {
      expect(read(`${line} --decisions w.json --saved-decisions=false`)).toMatchObject({
        ok: true,
        command: { options: { named: { savedDecisions: false }, file: null, decisions: 'w.json' } },
      });
    },
  );

  it('has no decisions to take for a proof', () => {
    expect(read('proof a.xml --decisions w.json')).toMatchObject({ ok: false });
  });

  it('writes many files into one folder', () => {
    expect(read('annotate a.xml x/b.mei --out-dir out --to svg')).toEqual({
      ok: true,
      command: {
        kind: 'annotate',
        files: [
          { input: 'a.xml', output: 'out/a.svg' },
          { input: 'x/b.mei', output: 'out/b.svg' },
        ],
        form: 'svg',
        folder: 'out',
        options: NO_OPTIONS,
      },
    });
  });

  it.each([
    ['plan a.xml --json', { kind: 'plan', input: 'a.xml', json: true, options: NO_OPTIONS }],
    [
      'plan a.xml --spelling free --options o.json',
      { kind: 'plan', input: 'a.xml', json: false, options: { named: { spelling: 'free' }, file: 'o.json' } },
    ],
    [
      'proof a.xml b.xml',
      { kind: 'proof', inputs: ['a.xml', 'b.xml'], output: null, json: false, options: NO_OPTIONS },
    ],
    [
      'glissandi C whole tone',
      { kind: 'glissandi', json: false, options: { named: { sound: 'C whole tone' }, file: null } },
    ],
    ['handout keys', { kind: 'handout', name: 'keys', output: 'keys.pdf', form: 'pdf', options: NO_OPTIONS }],
    [
      'handout glissandi --naming german -o wall/g.svg',
      {
        kind: 'handout',
        name: 'glissandi',
        output: 'wall/g.svg',
        form: 'svg',
        options: { named: { naming: 'german' }, file: null },
      },
    ],
  ])('tringle %s is understood', (line, command) => {
    expect(read(line)).toEqual({ ok: true, command });
  });

  it.each([
    ['--help', { kind: 'help', about: null }],
    ['-h', { kind: 'help', about: null }],
    ['annotate --help', { kind: 'help', about: 'annotate' }],
    ['serve -h', { kind: 'help', about: 'serve' }],
    ['--version', { kind: 'version' }],
  ])('tringle %s asks for %o', (line, command) => {
    expect(read(line)).toEqual({ ok: true, command });
  });

  it.each([
    ['', 'nothing to do'],
    ['anotate a.xml', 'Did you mean “annotate”?'],
    ['part.xml', 'no command “part.xml”'],
    ['annotate', 'needs a file'],
    ['annotate a.xml b.xml', 'one file'],
    ['annotate a.xml --prat P1', 'Did you mean “--part”?'],
    ['annotate a.xml --port 80', 'no option “--port”'],
    ['annotate a.xml -x', 'no option “-x”'],
    ['annotate a.xml --constructor', 'no option “--constructor”'],
    ['annotate a.xml --part', '--part needs a value'],
    ['annotate a.xml --part A --part B', 'given twice'],
    ['annotate a.xml --help=1', 'takes no value'],
    ['annotate a.xml -o b.gif', 'end it with .pdf, .svg, .png, .json, .musicxml'],
    ['annotate a.xml -o pdf', 'end it with .pdf, .svg, .png, .json, .musicxml'],
    ['--part P1', 'no option “--part”'],
    ['annotate a.xml b.xml --out-dir o -o c.pdf', 'either'],
    ['annotate x/a.xml y/a.mei --out-dir o', 'both be written to o/a.pdf'],
    ['annotate a.xml --out-dir o --to gif', 'is not a kind of file to write'],
    ['annotate a.xml --spelling fre', 'keep, suggest or free'],
    ['annotate a.xml --foot-rest-seconds 11', 'at most 10'],
    ['annotate a.xml --weights-moove 1', 'Did you mean “--weights-move”?'],
    ['plan', 'needs a file'],
    ['plan a.xml b.xml', 'one file'],
    ['proof a.xml --repair', '--repair and -o belong together'],
    ['proof a.xml -o b.xml', '--repair and -o belong together'],
    ['proof a.xml b.xml --repair -o c.xml', 'one file at a time'],
    ['proof a.xml b.xml -o c.pdf', 'one file at a time'],
    ['proof a.xml --repair -o b.pdf', '--repair and -o belong together'],
    ['proof --spelling free a.xml', 'no option “--spelling”'],
    ['glissandi', 'needs a chord, a scale or a list of notes'],
    ['handout', 'needs a name: keys, glissandi, doubled-strings'],
    ['handout kyes', 'Did you mean “keys”?'],
    ['handout keys glissandi', 'one name'],
    ['handout keys -o keys.json', 'end it with .pdf or .svg'],
    ['serve a.xml', 'takes no file'],
    ['serve --port 65536', 'is not a port'],
    ['serve --port 8x', 'is not a port'],
    ['watch a.xml --port 9000', '--port goes with --serve'],
    ['watch a.xml --serve --port 8x', 'is not a port'],
    ['watch a.xml --serve --host 0.0.0.0', 'no option “--host”'],
    ['watch --serve', 'needs a file'],
  ])('tringle %s is refused: %s', (line, reason) => {
    const parsed = read(line);
    expect(parsed.ok).toBe(false);
    if (!parsed.ok) expect(parsed.usage).toContain(reason);
  });
});

describe('the address to serve at', () => {
  it.each([
    ['serve', {}, { host: '127.0.0.1', port: 8017 }],
    ['serve', { PORT: '9000', HOST: '0.0.0.0' }, { host: '0.0.0.0', port: 9000 }],
    ['serve --port 0 --host ::1', { PORT: '9000', HOST: '0.0.0.0' }, { host: '::1', port: 0 }],
  ])('of tringle %s with %j is %j', (line, environment, address) => {
    expect(read(line, environment)).toEqual({ ok: true, command: { kind: 'serve', address } });
  });

  it.each([
    ['watch a.xml', {}, null],
    ['watch a.xml --serve', { PORT: '9000', HOST: '0.0.0.0' }, { host: '127.0.0.1', port: 9000 }],
    ['watch a.xml --serve --port 0', {}, { host: '127.0.0.1', port: 0 }],
  ])(
    'of tringle %s with %j is %j: a followed file is shown to this machine alone',
    (line, environment, serve) => {
      const parsed = read(line, environment);
      expect(parsed).toMatchObject({ ok: true, command: { kind: 'watch', input: 'a.xml', serve } });
    },
  );
});
