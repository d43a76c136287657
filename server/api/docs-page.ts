import { createHash } from 'node:crypto';
import { type FindingRow, listFindingRows, SEVERITIES, SEVERITY_WORDS } from '../../engine/index.ts';
import { PROBLEM_CLASSES, problemType } from '../problems.ts';
import { VERSION } from '../version.ts';
import type { Endpoint } from './endpoints/endpoint.ts';
import { problemsByStatus } from './endpoints/endpoint-problems.ts';
import { ENDPOINTS } from './endpoints/endpoints.ts';
import { PURPOSE } from './purpose.ts';
import { listValues } from './requests/list-values.ts';
import { type NamedOption, nameOptions } from './requests/read-options.ts';

const STYLE = `
:root { color-scheme: light dark; font: 16px/1.5 system-ui, sans-serif; }
body { max-width: 60rem; margin: 0 auto; padding: 1rem; }
h2 { margin-top: 3rem; border-top: 1px solid; padding-top: 1rem; }
code, h2 span { font-family: ui-monospace, monospace; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .25rem .75rem .25rem 0; border-bottom: 1px solid #8884; }
nav ul { columns: 2; list-style: none; padding: 0; }
`;

/** The page loads nothing and runs nothing; its one style is named by its digest. */
export const DOCS_POLICY = `default-src 'none'; style-src 'sha256-${createHash('sha256').update(STYLE).digest('base64')}'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'`;

const MARKUP: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

const escapeMarkup = (text: string): string => text.replace(/[&<>"]/g, (character) => MARKUP[character]!);

const code = (text: string): string => `<code>${escapeMarkup(text)}</code>`;

const table = (heads: readonly string[], rows: readonly (readonly string[])[]): string =>
  rows.length === 0
    ? ''
    : `<table><thead><tr>${heads.map((head) => `<th scope="col">${head}</th>`).join('')}</tr></thead><tbody>${rows
        .map((row) => `<tr>${row.map((cell) => `<td>${cell}</td>`).join('')}</tr>`)
        .join('')}</tbody></table>`;

const describeOption = (option: NamedOption): readonly string[] => [
  code(option.name),
  escapeMarkup(listValues(option).join(', ')),
  escapeMarkup(option.description ?? ''),
];

const describeAnswers = ({ answers }: Endpoint): readonly (readonly string[])[] =>
  answers.map(({ status, description, content }) => [
    `${status}`,
    Object.keys(content).map(code).join('<br>'),
    escapeMarkup(description),
  ]);

const describeProblems = (endpoint: Endpoint): readonly (readonly string[])[] =>
  [...problemsByStatus(endpoint)]
    .sort(([a], [b]) => a - b)
    .flatMap(([status, codes]) =>
      codes.map((each) => [`${status}`, code(problemType(each)), escapeMarkup(PROBLEM_CLASSES[each].title)]),
    );

const section = (endpoint: Endpoint): string => {
  const { id, method, path, summary, description, options, upload } = endpoint;
  return [
    `<section id="${id}"><h2>${escapeMarkup(summary)} <span>${method.toUpperCase()} ${escapeMarkup(path)}</span></h2>`,
    `<p>${escapeMarkup(description)}</p>`,
    upload === null ? '' : `<p>Body: ${upload.map(code).join(', ')}, or a form.</p>`,
    options === null
      ? ''
      : `<h3>Options</h3>${table(['Name', 'Values', 'Meaning'], nameOptions(options).map(describeOption))}`,
    `<h3>Answers</h3>${table(['Status', 'Type', 'Meaning'], describeAnswers(endpoint))}`,
    `<details><summary>Problems</summary>${table(['Status', 'Type', 'Meaning'], describeProblems(endpoint))}</details></section>`,
  ].join('\n');
};

const describeFindingRow = ({
  code: name,
  severity,
  reports,
  title,
  when,
}: FindingRow): readonly string[] => [
  code(name),
  severity,
  reports.join(', '),
  escapeMarkup(title),
  // Options are named between backticks.
  escapeMarkup(when).replace(/`([^`]+)`/g, '<code>$1</code>'),
];

const EXAMPLE_DECISIONS = `{ "pins": [
  { "kind": "move", "pedal": "C", "position": "sharp", "at": { "barIndex": 3, "beat": "2" } },
  { "kind": "position", "pedal": "B", "position": "flat", "from": "0", "until": "12" },
  { "kind": "forbid", "from": { "barIndex": 7, "beat": "1" }, "until": { "barIndex": 8, "beat": "1" } } ],
  "respell": [ { "barIndex": 4, "beat": "5/2", "pitch": "C♯4", "to": "D♭4" } ],
  "omit": [ { "barIndex": 9, "beat": "1", "pitch": "E5", "staff": 1 } ],
  "delays": [ { "barIndex": 5, "beat": "1", "pitch": "F♯5", "toBeat": "2" } ],
  "fullSettings": [ { "barIndex": 12, "beat": "1", "print": true } ],
  "cueParts": [ { "barIndex": 40, "beat": "1", "part": "Oboe 1" }, { "barIndex": 71, "beat": "1", "part": null } ],
  "tempos": [ { "from": { "barIndex": 20, "beat": "1" }, "until": { "barIndex": 24, "beat": "1" }, "quartersPerMinute": 92 } ] }`;

/** The description of the service as a page to read. */
export const writeDocsPage = (): string =>
  `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>tringle ${VERSION}: the service</title><style>${STYLE}</style></head><body>
<header><h1>tringle ${VERSION}</h1>
<p>${PURPOSE} For programs: <a href="/openapi.json">openapi.json</a>.</p>
<nav><ul>${ENDPOINTS.map(({ id, summary }) => `<li><a href="#${id}">${escapeMarkup(summary)}</a></li>`).join('')}<li><a href="#findings">Findings</a></li></ul></nav></header>
<main>${ENDPOINTS.map(section).join('\n')}
<section id="findings"><h2>Findings</h2>
<p>Every finding has a code and a severity: ${SEVERITIES.map((each) => `${code(each)}: ${escapeMarkup(SEVERITY_WORDS[each].meaning)}`).join('; ')}.</p>
${table(['Code', 'Severity', 'In', 'Title', 'When it is told'], listFindingRows().map(describeFindingRow))}</section>
<section id="decisions"><h2>Your decisions about a part</h2>
<p>Pins, notes to play on another string, notes to leave out, and full settings to add or remove: send them as JSON in the part “options” of a form. Name a place by the index of its printed bar (from 0) and a beat (from 1); pins may also use a score time in quarter notes, as text. Name a note by its place and pitch. Your decisions are saved in the annotated MusicXML or MEI and followed again, unless a request brings its own.</p>
<pre>${escapeMarkup(EXAMPLE_DECISIONS)}</pre></section></main></body></html>
`;
