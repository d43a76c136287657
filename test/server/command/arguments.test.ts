import { describe, expect, it } from 'vitest';
import { readArguments } from '../../../server/command/arguments.ts';

const read = (line: string, environment = {}) => readArguments(line.split(' ').filter(Boolean), environment);

describe('a command line', () => {
  it.each([
    ['annotate a.xml', { input: 'a.xml', output: 'a.pdf', form: 'pdf', part: null }],
    ['annotate dir.x/a', { input: 'dir.x/a', output: 'dir.x/a.pdf', form: 'pdf', part: null }],
    ['annotate a.mei -o b.SVG', { input: 'a.mei', output: 'b.SVG', form: 'svg', part: null }],
    [
      'annotate --part=P2 --output b.json a.mei',
      { input: 'a.mei', output: 'b.json', form: 'json', part: 'P2' },
    ],
    ['annotate -- -a.xml', { input: '-a.xml', output: '-a.pdf', form: 'pdf', part: null }],
  ])('tringle %s is understood', (line, command) => {
    expect(read(line)).toEqual({ ok: true, command: { kind: 'annotate', ...command } });
  });

  it.each([
    ['--help', 'help'],
    ['-h', 'help'],
    ['annotate --help', 'help'],
    ['serve -h', 'help'],
    ['--version', 'version'],
  ])('tringle %s asks for the %s', (line, kind) => {
    expect(read(line)).toEqual({ ok: true, command: { kind } });
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
    ['annotate a.xml -o b.png', 'end it with .pdf, .svg or .json'],
    ['annotate a.xml -o pdf', 'end it with .pdf, .svg or .json'],
    ['--part P1', 'no option “--part”'],
    ['serve a.xml', 'takes no file'],
    ['serve --port 65536', 'is no port'],
    ['serve --port 8x', 'is no port'],
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
});
