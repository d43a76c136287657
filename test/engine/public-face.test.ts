import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

const compile = (entry: string): { checker: ts.TypeChecker; symbols: readonly ts.Symbol[] } => {
  const { config } = ts.readConfigFile(`${ROOT}tsconfig.json`, ts.sys.readFile) as { config: object };
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, ROOT);
  const declared = readdirSync(`${ROOT}render`, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.d.ts'))
    .map((name) => `${ROOT}render/${name}`);
  const program = ts.createProgram([`${ROOT}${entry}`, ...declared], options);
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(`${ROOT}${entry}`)!;
  return { checker, symbols: checker.getExportsOfModule(checker.getSymbolAtLocation(source)!) };
};

describe.each(['engine/index.ts', 'engine/library.ts', 'render/index.ts', 'render/pure.ts'])(
  'every export of %s',
  (entry) => {
    const { checker, symbols } = compile(entry);

    it('is found', () => {
      expect(symbols.length).toBeGreaterThan(3);
    });

    it('is described where it is defined', () => {
      const bare = symbols
        .map((symbol) => (symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol))
        .filter((symbol) => symbol.getDocumentationComment(checker).length === 0)
        .map(({ name }) => name);
      expect(bare).toEqual([]);
    });
  },
);

describe('the engine’s public face', () => {
  it('gives every name under a heading', () => {
    const text = readFileSync(`${ROOT}engine/index.ts`, 'utf8');
    const afterHeadings = text.split(/^\/\/ .+\.$/m).slice(1);
    expect(afterHeadings.every((part) => part.includes('export '))).toBe(true);
    expect(text.split(/^\/\/ .+\.$/m)[0]).not.toContain('export {');
  });
});
