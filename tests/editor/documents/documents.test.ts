import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createDocuments } from '../../../src/editor/documents/documents.ts';
import { linkTo } from '../../../src/editor/documents/scene-link.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { beginGesture, edit, endGesture, redo, undo } from '../../../src/editor/store/edits.ts';
import { newReadingDesk } from '../../../src/editor/worker/reading-desk.ts';
import { saveScene } from '../../../src/scene/file/save-scene.ts';
import { glb } from '../../support/meshes.ts';
import { smallScene } from '../../support/scenes.ts';
import { browserOfTabs } from './support/browser-of-tabs.ts';

const DEMO = readFileSync('scenes/night-quay.json', 'utf8');
const NOWHERE = { hash: '', href: 'http://localhost/' } as Location;

type Browser = ReturnType<typeof browserOfTabs>;

/** A tab of this browser with the page open in it, the demo showing. */
async function newTab(browser: Browser, address: Partial<Location> = {}) {
  const store = createEditorStore();
  const holds = browser.newTab();
  const copied: string[] = [];
  const desk = newReadingDesk();
  const documents = createDocuments({
    store,
    desk: () => desk,
    shelf: browser.shelf,
    holds,
    copyText: async (text) => void copied.push(text),
  });
  await documents.start({ ...NOWHERE, ...address } as Location);
  const text = () => saveScene(store.getState().scene!.document);
  const shown = () => documents.state.getState().shown!;
  const level = (value: number) =>
    edit(store, {
      do: 'change',
      id: store.getState().scene!.document.lamps![0]!.id,
      patch: { level: value },
    });
  return { store, documents, holds, copied, text, shown, level };
}

function file(name: string, content: string | Uint8Array) {
  return { file: new File([content as BlobPart], name, { lastModified: 7 }), handle: null };
}

const small = (title = 'Small') => file('small.json', JSON.stringify({ ...smallScene(), title }));

describe('the demo', () => {
  it('is what the desk would make of its file, with nothing to warn of, although no desk is asked', async () => {
    const { store } = await newTab(browserOfTabs());
    // derived: the same file by the way that all other files take
    const opened = await newReadingDesk().open(DEMO, new Map());
    expect(opened.problems).toEqual([]);
    expect(store.getState().scene!.document).toEqual(opened.document);
  });
});

describe('what is kept', () => {
  it('is nothing of the demo until it is changed, and nothing again when it is changed back', async () => {
    const browser = browserOfTabs();
    const { documents, store, level, shown } = await newTab(browser);
    expect(shown()).toMatchObject({ id: null, delivered: true, saved: false });
    await documents.flush();
    expect(browser.kept()).toEqual([]);
    level(0.5);
    await documents.flush();
    expect(browser.kept().map(({ about }) => about.title)).toEqual(['Last boat']);
    expect(documents.unkept()).toBe(false);
    undo(store);
    await documents.flush();
    expect(browser.kept()).toEqual([]);
    redo(store);
    await documents.flush();
    expect(browser.kept()).toHaveLength(1);
  });

  it('that is taken away here is kept anew, with its meshes, when undo brings it back', async () => {
    const browser = browserOfTabs();
    const { documents, store, shown } = await newTab(browser);
    await documents.openFiles([small()]);
    await documents.openFiles([file('rock.glb', await glb())]);
    await documents.flush();
    const { id } = shown();
    await documents.openDemo();
    await documents.forgetKept(id!);
    expect(browser.kept()).toEqual([]);
    undo(store);
    undo(store);
    redo(store);
    await documents.flush();
    expect([...browser.kept()[0]!.beside.keys()]).toEqual(['rock.glb']);
  });

  it('opens again byte for byte after the tab is gone', async () => {
    const browser = browserOfTabs();
    const first = await newTab(browser);
    await first.documents.openFiles([small()]);
    for (const step of [0.9, 0.7, 0.3]) first.level(step);
    await first.documents.flush();
    first.holds.crash();
    const second = await newTab(browser);
    await second.documents.openKept(browser.kept()[0]!.about.id);
    expect(second.text()).toBe(first.text());
    expect(second.shown().standing).toBe('ours');
  });

  it('has its meshes with it', async () => {
    const browser = browserOfTabs();
    const first = await newTab(browser);
    const rock = await glb();
    await first.documents.openFiles([small(), file('unused.glb', rock)]);
    await first.documents.openFiles([file('rock.glb', rock)]);
    expect(first.store.getState().step).toBe('Add rock');
    const [, added] = first.store.getState().scene!.document.solids!;
    expect(added).toMatchObject({ id: 'rock', shape: 'mesh', file: 'rock.glb' });
    await first.documents.flush();
    const second = await newTab(browser);
    expect(await second.documents.openKept(first.shown().id!)).toBe(true);
    expect(second.store.getState().scene!.beside.get('rock.glb')).toEqual(rock);
    expect(second.text()).toBe(first.text());
  });

  it('follows a drag at its end, as one state', async () => {
    const browser = browserOfTabs();
    const { documents, store, level } = await newTab(browser);
    await documents.openFiles([small()]);
    await documents.flush();
    const before = browser.writes();
    beginGesture(store, 'drag');
    for (let i = 1; i <= 50; i++) level(1 - i / 100);
    expect(browser.writes()).toBe(before);
    endGesture(store);
    await documents.flush();
    expect(browser.writes()).toBe(before + 1);
    expect(browser.kept()[0]!.text).toContain('"level":0.5');
  });

  it('is not doubled when the same file is opened again', async () => {
    const browser = browserOfTabs();
    const { documents, shown } = await newTab(browser);
    await documents.openFiles([small()]);
    await documents.flush();
    const { id } = shown();
    await documents.openDemo();
    await documents.openFiles([small()]);
    await documents.flush();
    expect(shown()).toMatchObject({ id, fileName: 'small.json', saved: true });
    await documents.openFiles([small('Other')]);
    await documents.flush();
    expect(browser.kept()).toHaveLength(2);
  });

  it('is told when storage fails, and caught up with when it works again', async () => {
    const browser = browserOfTabs();
    const { documents, store, level } = await newTab(browser);
    browser.fail(Object.assign(new Error('no room'), { name: 'QuotaExceededError' }));
    level(0.5);
    await documents.flush();
    expect(store.getState().storageNotice).toMatch(/does not keep the scene: its storage is full/);
    expect(documents.unkept()).toBe(true);
    browser.fail(new Error('forbidden'));
    level(0.4);
    await documents.flush();
    expect(store.getState().storageNotice).toMatch(/off or forbidden.*Save it as a file/);
    browser.fail(null);
    level(0.3);
    await documents.flush();
    expect(store.getState().storageNotice).toBeNull();
    expect(documents.unkept()).toBe(false);
  });
});

describe('history', () => {
  it('goes back fifty steps to the byte, and over the opening of another document into the one before', async () => {
    const browser = browserOfTabs();
    const { documents, store, text, level, shown } = await newTab(browser);
    const demo = text();
    for (let i = 1; i <= 50; i++) level(1 - i / 100);
    const edited = text();
    await documents.flush();
    const { id } = shown();
    await documents.openFiles([small()]);
    expect(shown().id).not.toBe(id);
    await documents.flush();
    undo(store);
    expect(text()).toBe(edited);
    expect(shown().id).toBe(id);
    for (let i = 0; i < 50; i++) undo(store);
    expect(text()).toBe(demo);
    undo(store);
    expect(text()).toBe(demo);
    await documents.flush();
    // What was opened in between is kept under its own name still.
    expect(browser.kept().map(({ about }) => about.title)).toEqual(['Small']);
  });
});

describe('two tabs with one scene', () => {
  async function twoTabs() {
    const browser = browserOfTabs();
    const first = await newTab(browser);
    await first.documents.openFiles([small()]);
    first.level(0.8);
    await first.documents.flush();
    const { id } = first.shown();
    const second = await newTab(browser);
    await second.documents.openKept(id!);
    await second.documents.flush();
    return { browser, first, second, id: id! };
  }

  it('notice each other, and a change in the second is a copy', async () => {
    const { browser, first, second, id } = await twoTabs();
    expect(second.shown()).toMatchObject({ id, standing: 'elsewhere', copy: false });
    second.level(0.1);
    await second.documents.flush();
    expect(second.shown()).toMatchObject({ standing: 'ours', copy: true });
    expect(second.shown().id).not.toBe(id);
    expect(second.documents.state.getState().notice).toMatch(/copy/);
    first.level(0.9);
    await first.documents.flush();
    expect(browser.kept()).toHaveLength(2);
    const texts = browser.kept().map(({ text }) => /"level":([\d.]+)/.exec(text)![1]);
    expect(texts.toSorted()).toEqual(['0.1', '0.9']);
  });

  it('can make a copy without a change', async () => {
    const { browser, second, id } = await twoTabs();
    await second.documents.goOnAsCopy();
    expect(second.shown()).toMatchObject({ standing: 'ours', copy: true, kept: true });
    expect(browser.kept().map(({ about }) => about.id)).toContain(id);
    expect(browser.kept()).toHaveLength(2);
  });

  it('pass it on: the second has what the first did last, and the first then copies', async () => {
    const { browser, first, second, id } = await twoTabs();
    first.level(0.2);
    await second.documents.takeOver();
    expect(second.text()).toBe(first.text());
    expect(second.shown()).toMatchObject({ id, standing: 'ours' });
    expect(first.shown()).toMatchObject({ id, standing: 'taken' });
    second.level(0.6);
    await second.documents.flush();
    expect(browser.kept()).toHaveLength(1);
    first.level(0.4);
    await first.documents.flush();
    expect(first.shown()).toMatchObject({ standing: 'ours', copy: true });
    expect(browser.kept()).toHaveLength(2);
  });

  it('overwrite nothing even where the browser lets both believe that they are alone', async () => {
    const { browser, first, second, id } = await twoTabs();
    first.holds.crash();
    second.level(0.1);
    await second.documents.flush();
    expect(second.shown()).toMatchObject({ id, standing: 'ours', copy: false });
    first.level(0.9);
    await first.documents.flush();
    expect(first.shown()).toMatchObject({ copy: true });
    expect(browser.kept()).toHaveLength(2);
  });
});

describe('a link', () => {
  it('carries the scene into another browser', async () => {
    const { documents, copied, text } = await newTab(browserOfTabs());
    await documents.copyLink({ href: 'http://localhost/#old' } as Location);
    expect(copied[0]).toMatch(/^http:\/\/localhost\/#scene=/);
    expect(documents.state.getState().notice).toMatch(/^Link copied/);
    const elsewhere = browserOfTabs();
    const there = await newTab(elsewhere, { hash: copied[0]!.slice('http://localhost/'.length) });
    expect(there.text()).toBe(text());
    expect(there.shown()).toMatchObject({ delivered: false, standing: 'ours' });
    await there.documents.flush();
    expect(elsewhere.kept()).toHaveLength(1);
  });

  it('that is damaged says so, and the page opens as it would have', async () => {
    const { store } = await newTab(browserOfTabs(), { hash: '#scene=AAAA' });
    expect(store.getState().refusedFile?.title).toBe('The scene in the link was not opened');
    expect(saveScene(store.getState().scene!.document)).toBe(saveScene(JSON.parse(DEMO)));
  });

  it('with a scene that has slips names them', async () => {
    const wrong = { ...smallScene(), lamps: [{ ...smallScene().lamps![0]!, head: 'plian' }] };
    const made = await linkTo('http://localhost/', wrong);
    const hash = 'link' in made ? new URL(made.link).hash : '';
    const { store } = await newTab(browserOfTabs(), { hash });
    expect(store.getState().refusedFile?.problems[0]).toMatchObject({
      path: 'lamps[0].head',
      nearest: 'plain',
    });
  });
});

describe('files that are brought', () => {
  it('complete a scene that lacked them, which is then kept with them', async () => {
    const browser = browserOfTabs();
    const { documents, store } = await newTab(browser);
    const solid = {
      id: 'rock',
      shape: 'mesh',
      position_m: [0, 0, 0],
      material: 'concrete',
      file: 'rock.glb',
    };
    const lacking = { ...smallScene(), title: 'Lacking', solids: [solid] };
    await documents.openFiles([file('lacking.json', JSON.stringify(lacking))]);
    expect(store.getState().refusedFile?.title).toBe('lacking.json was not opened');
    expect(store.getState().scene?.document.title).toBe('Last boat');
    await documents.openFiles([file('rock.glb', await glb())]);
    expect(store.getState().scene?.document.title).toBe('Lacking');
    await documents.flush();
    expect([...browser.kept()[0]!.beside.keys()]).toEqual(['rock.glb']);
  });

  it('that are photometric wait to be looked at; meshes that are none are refused', async () => {
    const { documents, store, text } = await newTab(browserOfTabs());
    const before = text();
    await documents.openFiles([file('one.ies', 'IESNA'), file('two.ldt', 'x'), file('bad.glb', 'no mesh')]);
    expect(documents.state.getState().brought.map(({ name }) => name)).toEqual(['one.ies', 'two.ldt']);
    expect(store.getState().refusedFile?.title).toBe('bad.glb was not added');
    expect(text()).toBe(before);
    documents.photometryDone();
    expect(documents.state.getState().brought.map(({ name }) => name)).toEqual(['two.ldt']);
  });

  it('of one name but other bytes do not take each other’s place', async () => {
    const { documents, store } = await newTab(browserOfTabs());
    const rock = await glb();
    const other = await glb();
    other[other.length - 1]! ^= 1;
    await documents.openFiles([file('rock.glb', rock)]);
    await documents.openFiles([file('rock.glb', other)]);
    await documents.openFiles([file('rock.glb', rock)]);
    expect([...store.getState().scene!.beside.keys()]).toEqual(['rock.glb', 'rock-2.glb']);
    const files = store
      .getState()
      .scene!.document.solids!.flatMap((s) => (s.shape === 'mesh' ? [s.file] : []));
    expect(files).toEqual(['rock.glb', 'rock-2.glb', 'rock.glb']);
  });
});

describe('a new scene', () => {
  it('is valid, has ground and a camera, and can be metered as soon as there is a mark', async () => {
    const { documents, store, shown } = await newTab(browserOfTabs());
    await documents.newScene();
    const { document } = store.getState().scene!;
    const mark = { id: 'face', position_m: [0, 1.5, 0] };
    const desk = newReadingDesk();
    const opened = await desk.open(JSON.stringify({ ...document, marks: [mark] }), new Map());
    expect(opened.problems).toEqual([]);
    expect(opened.document?.cameras).toHaveLength(1);
    await documents.flush();
    expect(shown()).toMatchObject({ kept: true, delivered: false });
  });
});
