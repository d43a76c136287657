import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const { scripts } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')) as {
  scripts: Record<string, string>;
};

/** Node, npm, or a program that an npm package brings: what every system with the project installed has. */
const isEverywhere = (program: string): boolean =>
  ['node', 'npm'].includes(program) ||
  existsSync(new URL(`../node_modules/.bin/${program}`, import.meta.url));

describe('the npm script', () => {
  it.each(Object.entries(scripts))('%s runs in any shell', (_name, script) => {
    // Between double quotes each shell takes all signs but these as they stand.
    expect(script).not.toMatch(/[$`%!\\^]/);
    const outside = script.replaceAll(/"[^"]*"/g, 'quoted');
    // `&&` means the same to sh, cmd.exe and PowerShell 7; the rest of their grammar differs.
    for (const command of outside.split(' && ')) {
      expect(command).not.toMatch(/[&|;<>()'*?~{}]/);
      expect(isEverywhere(command.split(' ')[0]!), command).toBe(true);
    }
  });
});
