import { Writable } from 'node:stream';
import { runCommand } from '../../../server/command/run-command.ts';

/** What a command left behind. */
export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Keeps what is written to it. */
const paper = (): { readonly stream: Writable; readonly written: () => string } => {
  const chunks: Buffer[] = [];
  const stream = new Writable({
    write: (chunk: Buffer, _encoding, done) => {
      chunks.push(chunk);
      done();
    },
  });
  return { stream, written: () => Buffer.concat(chunks).toString('utf8') };
};

/** Runs a command line in this process, as the program would in that folder: no start of Node and of the layout engine. */
export const runHere = async (folder: string, words: readonly string[]): Promise<Ran> => {
  const [answer, trouble] = [paper(), paper()];
  const before = process.cwd();
  process.chdir(folder);
  try {
    const status = await runCommand(words, { answer: answer.stream, trouble: trouble.stream });
    return { status, stdout: answer.written(), stderr: trouble.written() };
  } finally {
    process.chdir(before);
  }
};
