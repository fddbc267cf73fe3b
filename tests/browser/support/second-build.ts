import { readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Makes a folder with the built page what the next build would leave there: every script and style under another name and none
 * under the old one, all that names them changed to match, and the page itself marked by a `<meta name="build">`.
 */
export function makeSecondBuild(folder: string): void {
  const assets = join(folder, 'assets');
  const renamed = readdirSync(assets).map((name) => [name, name.replace(/(\.\w+)$/, '2$1')] as const);
  const longestFirst = renamed.toSorted(([a], [b]) => b.length - a.length);
  const withNewNames = (path: string) => {
    let text = readFileSync(path, 'utf8');
    for (const [before, after] of longestFirst) text = text.replaceAll(before, after);
    writeFileSync(path, text);
  };
  for (const [before, after] of renamed) {
    renameSync(join(assets, before), join(assets, after));
    withNewNames(join(assets, after));
  }
  for (const name of readdirSync(folder)) if (/\.(html|js)$/.test(name)) withNewNames(join(folder, name));
  const page = join(folder, 'index.html');
  const marked = readFileSync(page, 'utf8').replace('<head>', '<head><meta name="build" content="second">');
  writeFileSync(page, marked);
  // The list of what is to be kept names the page by what it holds.
  const worker = join(folder, 'sw.js');
  const listed = /(url:"index\.html",revision:")\w+|(revision:")\w+(",url:"index\.html")/;
  const text = readFileSync(worker, 'utf8');
  if (!listed.test(text)) throw new Error('sw.js does not list index.html as it did');
  writeFileSync(
    worker,
    text.replace(listed, (_, before, other, after) =>
      before ? `${before}second` : `${other}second${after}`,
    ),
  );
}
