// Collects the notices of what is shipped. Run `npm run notices` after a change of packages; a test holds the file against it.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { listShipped, ROOT } from './shipped-packages.mjs';

export const NOTICES_PATH = `${ROOT}THIRD-PARTY-NOTICES.txt`;

const RULE = '='.repeat(78);

const ABOUT = `Third-party notices
===================

tringle itself comes under the MIT licence (see LICENSE). It uses the packages
below, each under its own licence.

Verovio (package verovio) comes under the GNU Lesser General Public License,
version 3 or later. It is used as published, unchanged, and is not bundled:
the program loads it when it runs from the folder node_modules/verovio. To use
another version of it, put that in its place:

  npm install verovio@VERSION          another release, or
  npm install /path/to/your/verovio    your own build with the same exports
                                       (verovio/wasm and verovio/esm)

In the container image, lay your build over /app/node_modules/verovio, as with
docker run -v /path/to/your/verovio:/app/node_modules/verovio. Its source is at
https://github.com/rism-digital/verovio. You may take tringle apart as far as
that is needed to find faults in such a change.

The fonts Bravura (package @vexflow-fonts/bravura) and Tinos (package
@expo-google-fonts/tinos) come under the SIL Open Font License, version 1.1.

resvg (package @resvg/resvg-wasm) comes under the Mozilla Public License,
version 2.0. It is used as published, unchanged, and is not bundled. Its source
is at https://github.com/yisibl/resvg-js and https://github.com/linebender/resvg.

Packages named for an operating system or a processor are builds of the
package whose name they begin with; only the one for the machine is installed.
The native libraries within them have notices of their own, kept with their
source (https://github.com/Myriad-Dreamin/typst.ts and others below).
`;

const FULL_TEXTS = ['LGPL-3.0', 'GPL-3.0', 'Apache-2.0', 'MPL-2.0'];

const fullText = (name) =>
  readFileSync(fileURLToPath(new URL(`texts/${name}.txt`, import.meta.url)), 'utf8').trim();

/** Packages with the same words stand together. */
const groupByText = (packages) => {
  const groups = new Map();
  for (const { name, version, license, texts } of packages) {
    const text =
      texts.length === 0 ? `Licence: ${license}. The package holds no text of it.` : texts.join('\n\n');
    groups.set(text, [...(groups.get(text) ?? []), `${name} ${version} (${license})`]);
  }
  return [...groups];
};

/** The whole text of the notices. */
export const writeNotices = () =>
  `${[
    ABOUT,
    ...groupByText(listShipped()).map(([text, names]) => `${RULE}\n${names.join('\n')}\n\n${text}\n`),
    ...FULL_TEXTS.map((name) => `${RULE}\nFull text of ${name}\n\n${fullText(name)}\n`),
  ].join('\n')}`;

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(NOTICES_PATH, writeNotices());
