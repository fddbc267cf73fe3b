import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, isAbsolute, join } from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const PLACES = [
  '/usr/bin',
  '/usr/local/bin',
  '/snap/bin',
  '/opt/google/chrome',
  '/Applications/Chromium.app/Contents/MacOS',
  '/Applications/Google Chrome.app/Contents/MacOS',
];
const OWN_NAMES_ON_MACOS = ['Chromium', 'Google Chrome'];

/** Path of a Chromium: the one that KEYFALL_CHROMIUM names, an installed one, or one installed now where apt can. */
export function findBrowser(): string {
  const asked = process.env.KEYFALL_CHROMIUM;
  if (asked) {
    const path = isAbsolute(asked) ? asked : onPath(asked);
    if (path && existsSync(path)) return path;
    throw new Error(`KEYFALL_CHROMIUM is "${asked}", and there is no such program`);
  }
  const found = installed();
  if (found) return found;
  installWithApt();
  const fresh = installed();
  if (fresh) return fresh;
  throw new Error(
    'chromium was installed but its program is in none of the usual places: set KEYFALL_CHROMIUM',
  );
}

function installed(): string | undefined {
  for (const name of NAMES) {
    const path = onPath(name);
    if (path) return path;
  }
  return PLACES.flatMap((place) => [...NAMES, ...OWN_NAMES_ON_MACOS].map((name) => join(place, name))).find(
    existsSync,
  );
}

function onPath(name: string): string | undefined {
  return (process.env.PATH ?? '')
    .split(delimiter)
    .filter(Boolean)
    .map((folder) => join(folder, name))
    .find(existsSync);
}

function installWithApt(): void {
  if (process.getuid?.() !== 0 || !onPath('apt-get')) {
    throw new Error(
      'the browser tests need Chromium or Chrome, and none was found. Install it (Debian: sudo apt-get install ' +
        'chromium) or set KEYFALL_CHROMIUM to its path. `npm run test:unit` runs the tests that need none.',
    );
  }
  process.stderr.write('No Chromium found: installing it with apt-get.\n');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  execFileSync('apt-get', ['update'], { stdio: ['ignore', 'ignore', 'inherit'], env });
  execFileSync('apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], {
    stdio: ['ignore', 'ignore', 'inherit'],
    env,
  });
}
