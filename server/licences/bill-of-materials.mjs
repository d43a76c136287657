// Writes the bill of materials of what is shipped (CycloneDX, made by npm) into dist/sbom.cdx.json.
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { listShipped, ROOT } from './shipped-packages.mjs';

const made = execFileSync(
  'npm',
  ['sbom', '--package-lock-only', '--sbom-format', 'cyclonedx', '--sbom-type', 'application'],
  { cwd: ROOT, encoding: 'utf8', maxBuffer: 100_000_000, shell: process.platform === 'win32' },
);

const { name } = JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8'));
const bill = JSON.parse(made);
const own = bill.metadata.component;
const licences = new Map(listShipped().map((each) => [`${each.name}@${each.version}`, each.license]));
const nameOf = ({ group, name, version }) => `${group === undefined ? '' : `${group}/`}${name}@${version}`;
const components = bill.components
  .filter((each) => licences.has(nameOf(each)))
  .map((each) => ({ licenses: [{ license: { id: licences.get(nameOf(each)) } }], ...each }));
const kept = new Set([own['bom-ref'], ...components.map((each) => each['bom-ref'])]);
const dependencies = bill.dependencies
  .filter(({ ref }) => kept.has(ref))
  .map(({ ref, dependsOn = [] }) => ({ ref, dependsOn: dependsOn.filter((each) => kept.has(each)) }));

// npm names the whole after its folder.
const metadata = { ...bill.metadata, component: { ...own, name } };
writeFileSync(
  `${ROOT}dist/sbom.cdx.json`,
  `${JSON.stringify({ ...bill, metadata, components, dependencies }, null, 2)}\n`,
);
