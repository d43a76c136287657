import {
  completeChoice,
  type DivisionAim,
  PEDAL_CATALOGUE,
  pickChoice,
  SHARING_CATALOGUE,
} from '../../../../engine/index.ts';
import type { DivisionReport } from '../../../api/answers/division.ts';
import type { FixesReport } from '../../../api/answers/fixes.ts';
import { STRINGS } from '../../strings/strings.ts';
import { optionsOf } from '../options/choices.ts';
import {
  type Answer,
  askService,
  decisionsFor,
  fileOptions,
  type Order,
  type ScoreFile,
} from './annotate-request.ts';

export const formOf = (file: ScoreFile, options: object): FormData => {
  const form = new FormData();
  form.append('options', JSON.stringify({ ...options, ...fileOptions(file) }));
  form.append('score', new Blob([file.bytes]), file.name);
  return form;
};

export const readReport = async <T>(
  answer: Answer<Response>,
  kind: (found: unknown) => found is T,
): Promise<Answer<T>> => {
  if (!answer.ok) return answer;
  const found: unknown = await answer.value.json();
  return kind(found)
    ? { ok: true, value: found }
    : { ok: false, sentence: STRINGS.score.failed, status: answer.value.status };
};

const has =
  <T>(member: string) =>
  (found: unknown): found is T =>
    typeof found === 'object' && found !== null && Reflect.has(found, member);

/** The part divided between two players. */
export const fetchDivision = async (
  { file, choices, decisions }: Order,
  divide: DivisionAim,
  signal: AbortSignal,
): Promise<Answer<DivisionReport>> => {
  const planning = pickChoice(PEDAL_CATALOGUE, optionsOf(choices, 'pedal'));
  const options = { ...planning, ...decisionsFor('pedal', decisions), divide };
  return readReport(
    await askService('v1/divide', formOf(file, options), 'application/json', signal),
    has<DivisionReport>('least'),
  );
};

/** The smallest fixes of what cannot be played. */
export const fetchFixes = async (
  { file, choices, decisions }: Order,
  signal: AbortSignal,
): Promise<Answer<FixesReport>> => {
  const chosen = optionsOf(choices, 'pedal');
  const { player } = completeChoice(SHARING_CATALOGUE, chosen, 'pedal');
  const options = { ...pickChoice(PEDAL_CATALOGUE, chosen), player, ...decisionsFor('pedal', decisions) };
  return readReport(
    await askService('v1/fixes', formOf(file, options), 'application/json', signal),
    has<FixesReport>('places'),
  );
};
