import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { type RequestHandler, Router } from 'express';
import { matchesEtag } from '../http/etag.ts';
import { handleOtherMethods } from '../http/other-methods.ts';
import { PACKAGE_FOLDER } from '../package-folder.ts';
import { isContentNamed } from './content-named.ts';

/** What the page may load: its own files, and pictures that it makes itself. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const MEDIA_TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.otf': 'font/otf',
  '.ttf': 'font/ttf',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.webmanifest': 'application/manifest+json',
  '.txt': 'text/plain; charset=utf-8',
  '.musicxml': 'application/vnd.recordare.musicxml+xml',
};

/** Where `build.mjs` puts the page. */
const BUILT_FOLDER = join(PACKAGE_FOLDER, 'dist', 'server', 'page', 'assets');

interface Asset {
  readonly type: string;
  readonly caching: string;
  readonly etag: string;
  readonly body: Buffer;
}

/** Under any other name a new version of the program is to be seen at once: asked for anew, and answered with 304. */
const cachingOf = (name: string): string =>
  isContentNamed(name) ? 'public, max-age=31536000, immutable' : 'no-cache';

const readAsset = (path: string): Asset => {
  const body = readFileSync(path);
  const type = MEDIA_TYPES[extname(path)];
  if (type === undefined) throw new Error(`no media type is known for ${basename(path)}`);
  const caching = cachingOf(basename(path));
  return { type, caching, etag: `W/"${createHash('sha256').update(body).digest('base64url')}"`, body };
};

const readAssets = (folder: string): ReadonlyMap<string, Asset> =>
  new Map(readdirSync(folder).map((name) => [name, readAsset(join(folder, name))]));

const sendAsset =
  ({ type, caching, etag, body }: Asset): RequestHandler =>
  (request, response) => {
    response.set({ 'Content-Security-Policy': POLICY, ETag: etag, 'Cache-Control': caching });
    if (matchesEtag(request.get('If-None-Match'), etag)) response.status(304).end();
    else response.set('Content-Type', type).send(body);
  };

/**
 * Serves the web page: its few files are read once and kept.
 *
 * @throws where the page has not been built (`npm run build`)
 */
export const createPageRouter = (folder: string = BUILT_FOLDER): Router => {
  const router = Router();
  for (const [name, asset] of readAssets(folder)) {
    const paths = name === 'index.html' ? ['/', '/index.html'] : `/${name}`;
    router
      .route(paths)
      .get(sendAsset(asset))
      .all(handleOtherMethods(['GET', 'HEAD', 'OPTIONS']));
  }
  return router;
};
