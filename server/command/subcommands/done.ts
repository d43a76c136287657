import { extname } from 'node:path';
import type { Annotation } from '../../../render/index.ts';
import { SOURCE_TYPES } from '../../../render/pure.ts';
import type { AnyProblem } from '../../service-problem.ts';
import type { FilePair } from '../arguments/commands.ts';
import { EXIT, type Failed, resultOfProblem } from '../exit.ts';
import { isSource, OUTPUT_KINDS, withoutExtension } from '../output-files.ts';

/** A file that was annotated, each harp of it that was wanted, or how the command would end for it alone. */
export type Done =
  | { readonly ok: true; readonly annotations: readonly Annotation[]; readonly paths: readonly string[] }
  | { readonly ok: false; readonly ending: Failed };

export const refusal = (input: string, problem: AnyProblem): Done => ({
  ok: false,
  ending: resultOfProblem(input, problem),
});

/** A file comes back in its own kind: which name to write it under is told as a user would give it. */
export const formRefusal = ({ input, output }: FilePair, offered: readonly string[]): Done => {
  const kinds = OUTPUT_KINDS.filter((kind) => isSource(kind) && offered.includes(SOURCE_TYPES[kind]));
  const names = kinds.map((kind) => `-o ${withoutExtension(output)}.${kind}`);
  return {
    ok: false,
    ending: {
      code: EXIT.usage,
      message: `${input} cannot be converted to ${extname(output)}: markings are added to a file of the same kind. Use ${names.join(' or ')}.`,
    },
  };
};

export const overwriteRefusal = (path: string): Done => ({
  ok: false,
  ending: {
    code: EXIT.usage,
    message: `${path} is the input file, which tringle never overwrites. Choose another name with -o.`,
  },
});

/** How the command would end for a file that could not be read or written. */
export const failing = (ending: Failed): Done => ({ ok: false, ending });
