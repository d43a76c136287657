import {
  countPlaces,
  extentOf,
  GRADE_WORDS,
  type HarpFinding,
  nameCount,
  nameExtent,
  orderForPeople,
  type Remark,
  SEVERITIES,
} from '../../engine/index.ts';
import type { Annotation } from '../../render/index.ts';
import { nameSeverity } from '../reports/name-severity.ts';

/** Words of a hostile file without line breaks and without codes that a terminal obeys. */
const tame = (text: string): string => text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ');

/** One line of what may be a hostile file's own words, its spaces joined. */
export const oneLine = (text: string): string => tame(text).replace(/ {2,}/g, ' ').trim();

/** Rows under heads, in columns; empty without rows. */
export const tabulate = (
  heads: readonly string[],
  rows: readonly (readonly string[])[],
): readonly string[] => {
  if (rows.length === 0) return [];
  const all = [heads, ...rows].map((row) => row.map(tame));
  const widths = heads.map((_, column) => Math.max(...all.map((row) => row[column]!.length)));
  return all.map((row) =>
    row
      .map((cell, column) => cell.padEnd(widths[column]!))
      .join('  ')
      .trimEnd(),
  );
};

const describeFinding = (finding: HarpFinding): string =>
  `${nameSeverity(finding.severity)}: ${nameExtent(extentOf(finding))}: ${finding.sentence}`;

/** Each with the name of its bar, which is empty for the whole score. */
export const describeRemarks = (remarks: readonly Pick<Remark, 'barName' | 'message'>[]): readonly string[] =>
  remarks.map(({ barName, message }) =>
    oneLine(['remark', barName === '' ? '' : `bar ${barName}`, message].filter(Boolean).join(': ')),
  );

export const countFindings = (findings: readonly HarpFinding[]): string => {
  const bySeverity = SEVERITIES.map((severity) => ({
    severity,
    number: findings.filter((finding) => finding.severity === severity).length,
  })).filter(({ number }) => number > 0);
  const detail = bySeverity
    .map(({ severity, number }) => {
      if (severity !== 'stop') return nameCount(number, nameSeverity(severity));
      const places = countPlaces(findings, severity);
      return `${number} ${nameSeverity(severity)}${places > number ? ` in ${nameCount(places, 'place')}` : ''}`;
    })
    .join(', ');
  return `${nameCount(findings.length, 'finding')}${detail === '' ? '' : ` (${detail})`}`;
};

/** What of a harp is not playable as printed, behind its name: one of several whose parts were written. */
export const tellUnplayable = ({ part, plan }: Annotation): readonly string[] =>
  orderForPeople<HarpFinding>(plan.plan.findings)
    .filter(({ finding }) => finding.severity === 'stop')
    .map(({ finding }) => oneLine(`${part.name}: ${describeFinding(finding)}`));

/** What the user reads after a part is written: findings that stop or warn, remarks, and a last line that sums up. */
export const summarize = (annotation: Annotation, files: readonly string[]): readonly string[] => {
  const { remarks, bars, pages } = annotation;
  const { kind, plan } = annotation.plan;
  const findings = orderForPeople<HarpFinding>(plan.findings)
    .filter(({ finding }) => finding.severity !== 'note')
    .map(({ finding }) => describeFinding(finding));
  const written = files.length > 2 ? `${files[0]} ... ${files.at(-1)}` : files.join(', ');
  const last = [
    nameCount(bars, 'bar'),
    nameCount(plan.moves.length, kind === 'pedal' ? 'move' : 'change'),
    GRADE_WORDS[plan.summary.difficulty.grade],
    ...(plan.summary.playable ? [] : ['not playable as printed']),
    countFindings(plan.findings),
    ...(pages.length === 0 ? [] : [nameCount(pages.length, 'page')]),
  ].join(', ');
  return [...findings, ...describeRemarks(remarks), `${last}: ${written}`].map(oneLine);
};

/** Said of a chord or scale that is named without a root. */
export const EVERY_ROOT = 'no root is named, so every root is tried';
