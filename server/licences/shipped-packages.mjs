// What others wrote and is shipped: packages that run with the program, and those that are bundled into the page.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** Needed to build alone, but part of the page's bundles. */
const BUNDLED = ['preact'];

/** Names of files that tell the licence of a package. */
const LICENCE_FILE = /^(?:licen[cs]e|copying|notice|ofl)/iu;

const readTexts = (folder) =>
  existsSync(folder)
    ? readdirSync(folder)
        .filter((name) => LICENCE_FILE.test(name))
        .sort()
        .map((name) => readFileSync(`${folder}/${name}`, 'utf8').replaceAll('\r\n', '\n').trim())
    : [];

/** Old packages name their licences in a list, which the lock file passes over. */
const readLicence = (folder) => {
  const file = `${folder}/package.json`;
  const { licenses } = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {};
  return licenses?.map(({ type }) => type).join(' OR ') ?? 'not stated';
};

/**
 * The packages that are shipped, by the lock file, so that every machine finds the same; of builds for one kind of machine
 * the texts are left out, since only this machine's are there.
 */
export const listShipped = () => {
  const { packages } = JSON.parse(readFileSync(`${ROOT}package-lock.json`, 'utf8'));
  return Object.entries(packages)
    .map(([path, entry]) => ({ path, name: path.slice(path.lastIndexOf('node_modules/') + 13), ...entry }))
    .filter(({ path, name, dev }) => path !== '' && (!dev || BUNDLED.includes(name)))
    .map(({ path, name, version, license = readLicence(`${ROOT}${path}`), os }) => ({
      name,
      version,
      license,
      texts: os === undefined ? readTexts(`${ROOT}${path}`) : [],
    }))
    .sort((a, b) => (`${a.name} ${a.version}` < `${b.name} ${b.version}` ? -1 : 1));
};
