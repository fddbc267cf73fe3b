import { readdirSync, readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keyfall, readingLines } from './support/command-line.ts';
import {
  chooseInMenu,
  dropFiles,
  freshNumbers,
  launchBrowser,
  type OpenedPage,
  openPage,
  openPanel,
  readingsOn,
} from './support/open-page.ts';
import { tetrahedronGlb } from './support/tetrahedron-glb.ts';

const DEMO = readFileSync('scenes/night-quay.json', 'utf8');

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

function title(page: Page) {
  return page.getByRole('heading', { level: 1 });
}

/** The demo with something else in it. */
function demoWith(change: (scene: ReturnType<typeof JSON.parse>) => void): string {
  const scene = JSON.parse(DEMO);
  change(scene);
  return JSON.stringify(scene, null, 2);
}

describe('a scene that is dropped', () => {
  it('opens and is metered, whichever of the demos it is', async () => {
    const { page, context, complaints } = await openPage(browser);
    for (const name of readdirSync('scenes').filter((file) => file.endsWith('.json'))) {
      const content = readFileSync(`scenes/${name}`, 'utf8');
      await dropFiles(page, [{ name, content }]);
      await page.waitForFunction(
        (wanted) => document.querySelector('h1')?.textContent === wanted,
        JSON.parse(content).title as string,
      );
      expect([name, await readingsOn(page)]).toEqual([
        name,
        readingLines(await keyfall('meter', `scenes/${name}`)),
      ]);
    }
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('with slips in it is refused with every one of them, and the scene before it stays', async () => {
    const { page, context, complaints } = await openPage(browser);
    const before = await readingsOn(page);
    const broken = demoWith((scene) => {
      scene.lamps[0].head = 'discharge-1800-spt';
      scene.lamps[1].levle = 0.5;
      scene.marks[2].position_m = [0, 1];
      scene.cameras[0].iso = 'fast';
    });
    await dropFiles(page, [{ name: 'slips.json', content: broken }]);
    const alert = page.getByRole('alert').filter({ hasText: 'slips.json was not opened' });
    await alert.waitFor();
    const items = await alert.getByRole('listitem').allTextContents();
    expect(items.length).toBe(4);
    const lamp = items.find((text) => text.includes('lamps[0].head'))!;
    expect(lamp).toContain('discharge-1800-spt');
    expect(lamp).toContain('Did you mean discharge-1800-spot?');
    expect(lamp).toMatch(/line \d+/);
    expect(items.join('\n')).toContain('levle');
    expect(items.join('\n')).toContain('marks[2].position_m');
    expect(items.join('\n')).toContain('cameras[0].iso');
    expect(await title(page).textContent()).toBe('Last boat');
    expect(await readingsOn(page)).toEqual(before);
    await page.getByRole('button', { name: 'Dismiss' }).click();
    await alert.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('of 50 MB is refused by its size, unread', async () => {
    const { page, context } = await openPage(browser);
    await page.evaluate(() => {
      const transfer = new DataTransfer();
      const large = new File([new Uint8Array(50_000_000)], 'large.json');
      File.prototype.text = () => Promise.reject(new Error('it was read'));
      transfer.items.add(large);
      document
        .querySelector('[data-testid=page]')!
        .dispatchEvent(new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: transfer }));
    });
    const alert = page.getByRole('alert').filter({ hasText: 'large.json was not opened' });
    await alert.waitFor();
    expect(await alert.textContent()).toContain('50 MB');
    expect(await alert.textContent()).toContain('at most 20 MB; it was not read');
    await context.close();
  });

  it('shows markup in its names as the text that it is', async () => {
    const { page, context, complaints } = await openPage(browser);
    const hostile = '<img src=x onerror="window.pwned=1"><script>window.pwned=1</script>';
    const content = demoWith((scene) => {
      scene.title = hostile;
      for (const list of ['lamps', 'marks', 'cameras', 'setups'])
        for (const thing of scene[list]) thing.name = hostile;
    });
    await dropFiles(page, [{ name: 'hostile.json', content }]);
    await page.waitForFunction((wanted) => document.querySelector('h1')?.textContent === wanted, hostile);
    expect((await readingsOn(page))[0]![0]).toBe(hostile);
    await openPanel(page, 'Lamps');
    expect(await page.locator('.lamp-name bdi').first().textContent()).toBe(hostile);
    expect(await page.locator('#page img, #page script').count()).toBe(0);
    for (const panel of ['Build', 'Power', 'Glints', 'Meter back']) await openPanel(page, panel);
    expect(await page.locator('#page script, img[src=x]').count()).toBe(0);
    expect(await page.evaluate(() => 'pwned' in window)).toBe(false);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1280);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('without cameras or marks says what is wanting, and the page goes on', async () => {
    const { page, context, complaints } = await openPage(browser);
    await dropFiles(page, [
      {
        name: 'blind.json',
        content: demoWith((s) => Object.assign(s, { cameras: [], paths: [], title: 'Blind' })),
      },
    ]);
    const readings = await openPanel(page, 'Readings');
    await readings.getByText('This scene cannot be metered as it stands').waitFor();
    await readings.getByText('a camera, because stops are counted from its exposure').waitFor();
    const markless = demoWith((s) => Object.assign(s, { marks: [], readings: [], title: 'Markless' }));
    await dropFiles(page, [{ name: 'markless.json', content: markless }]);
    await page.getByText('No marks: nowhere in this scene is the meter held').waitFor();
    await chooseInMenu(page, 'Open the demo');
    await page.locator('tr[data-mark=ada-face]').waitFor();
    await freshNumbers(page);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('comes one at a time', async () => {
    const { page, context } = await openPage(browser);
    await dropFiles(page, [
      { name: 'one.json', content: DEMO },
      { name: 'two.json', content: DEMO },
    ]);
    await page.getByRole('alert').filter({ hasText: 'one scene at a time' }).waitFor();
    await context.close();
  });
});

describe('a file that is no scene', () => {
  let opened: OpenedPage;
  beforeAll(async () => {
    opened = await openPage(browser);
  });
  afterAll(() => opened.context.close());

  it.each([
    ['empty', ''],
    ['not JSON', '<!doctype html><title>404</title>'],
    ['cut short', DEMO.slice(0, 900)],
    ['nested beyond reason', '['.repeat(100_000)],
    ['a list', '[]'],
    ['of a version to come', '{"keyfall": 99, "title": "later"}'],
    ['with a name twice', '{"keyfall": 1, "title": "a", "title": "b"}'],
    [
      'with an infinite figure',
      demoWith((s) => Object.assign(s.lamps[0], { level: 1 })).replace('"level": 1', '"level": 1e999'),
    ],
    ['with a path out of its folder', demoWith((s) => s.solids.splice(0, 1, meshNamed('../../etc/passwd')))],
    ['that would pollute', '{"keyfall": 1, "title": "p", "__proto__": {"polluted": true}}'],
  ])('%s is refused with its reason', async (_, content) => {
    const { page, complaints } = opened;
    await dropFiles(page, [{ name: 'bad.json', content }]);
    const alert = page.getByRole('alert').filter({ hasText: 'bad.json was not opened' });
    await alert.waitFor();
    expect(await alert.getByRole('listitem').count()).toBeGreaterThan(0);
    expect(await title(page).textContent()).toBe('Last boat');
    expect(await page.evaluate(() => 'polluted' in {})).toBe(false);
    expect(complaints).toEqual([]);
    await page.getByRole('button', { name: 'Dismiss' }).click();
    await alert.waitFor({ state: 'detached' });
  });
});

function meshNamed(file: string) {
  return { id: 'rock', name: 'Rock', shape: 'mesh', position_m: [0, 1.2, 3], material: 'concrete', file };
}

describe('files beside a scene', () => {
  const ies = readFileSync('tests/fixtures/photometry/synthetic/cos10-flood-C.ies');

  it('come in with it; the photometric ones stay in it', async () => {
    const { page, context } = await openPage(browser);
    const content = demoWith((scene) => {
      scene.title = 'With files';
      scene.heads = {
        own: {
          photometry: { kind: 'file', file: 'own.ies' },
          face: { shape: 'disc', diameter_m: 0.2 },
          spectrum: { kind: 'led', cct_K: 4000 },
        },
      };
      scene.lamps[1].head = 'own';
      scene.solids.push(meshNamed('rock.glb'));
    });
    await dropFiles(page, [
      { name: 'set.json', content },
      { name: 'own.ies', content: ies },
      { name: 'rock.glb', content: tetrahedronGlb() },
    ]);
    await page.waitForFunction(() => document.querySelector('h1')?.textContent === 'With files');
    const readings = await readingsOn(page);
    // Loaded again, all of it is at hand.
    await page.locator('[data-kept=true]').waitFor();
    await page.reload();
    await page.waitForFunction(() => document.querySelector('h1')?.textContent === 'With files');
    expect(await readingsOn(page)).toEqual(readings);
    await context.close();
  });

  it('are named when they are broken', async () => {
    const { page, context } = await openPage(browser);
    const content = demoWith((scene) => scene.solids.push(meshNamed('rock.glb')));
    await dropFiles(page, [
      { name: 'set.json', content },
      { name: 'rock.glb', content: 'not a mesh' },
    ]);
    const alert = page.getByRole('alert').filter({ hasText: 'set.json was not opened' });
    await alert.waitFor();
    expect(await alert.textContent()).toContain('rock.glb');
    await context.close();
  });

  it('are asked for where they were left behind, and then the scene opens', async () => {
    const { page, context } = await openPage(browser);
    const content = demoWith((scene) => {
      scene.title = 'With a rock';
      scene.solids.push(meshNamed('rock.glb'));
    });
    await dropFiles(page, [{ name: 'set.json', content }]);
    const alert = page.getByRole('alert').filter({ hasText: 'set.json was not opened' });
    await alert.waitFor();
    expect(await alert.getByRole('listitem').count()).toBe(1);
    expect(await alert.textContent()).toContain('rock.glb');
    await dropFiles(page, [{ name: 'rock.glb', content: tetrahedronGlb() }]);
    await page.waitForFunction(() => document.querySelector('h1')?.textContent === 'With a rock');
    await context.close();
  });
});
