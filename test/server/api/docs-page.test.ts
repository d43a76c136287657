import { expect, it } from 'vitest';
import { writeDocsPage } from '../../../server/api/docs-page.ts';
import { annotateOptions } from '../../../server/api/requests/options.ts';
import { readOptions } from '../../../server/api/requests/read-options.ts';

it('the decisions that the documentation shows are taken by the service', () => {
  const [, section = ''] = writeDocsPage().split('<section id="decisions">');
  const [, example = ''] = /<pre>([\s\S]*?)<\/pre>/.exec(section) ?? [];
  const json = example.replaceAll('&quot;', '"').replaceAll('&#34;', '"');
  expect(readOptions(annotateOptions, '', json)).toEqual({ ok: true, value: JSON.parse(json) });
});
